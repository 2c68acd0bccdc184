BEGIN TRANSACTION;
CREATE TABLE act (
	id INTEGER NOT NULL, 
	request VARCHAR NOT NULL, 
	request_hash VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	at DATETIME NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	operator VARCHAR NOT NULL, 
	job_id INTEGER, 
	note VARCHAR NOT NULL, 
	reverses INTEGER, 
	PRIMARY KEY (id), 
	FOREIGN KEY(job_id) REFERENCES job (id), 
	FOREIGN KEY(reverses) REFERENCES act (id), 
	UNIQUE (request), 
	UNIQUE (reverses)
);
INSERT INTO "act" VALUES(1,'r3','f4be806de4618f191f95a37bae692b6aa9b548c112b6132dbf06a8c7e087a442','receive','2026-11-20 09:00:00.000000','2026-11-20 09:00:00.000000','Ida M.',NULL,'',NULL);
INSERT INTO "act" VALUES(2,'r4','22cc772f3a51c87e0366765d02eb4f0b7d9e11c9e99113312d953156089a99e2','open','2026-11-20 09:00:00.000000','2026-11-20 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(3,'r5','97bc3d98d48211b7446bccabe91f752967dd3fbe669e7e4d4a362c5a127c407d','cut','2026-11-20 09:00:00.000000','2026-11-20 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(4,'r6','0104b6e4c2f0030360f05e86fa1968efaa10651d2d2167dc5ae0cb52d89d56d2','cut','2026-11-20 09:00:00.000000','2026-11-20 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(5,'r7','b2695cab1064bbb030624fbecde20e08733af955447b88d9f294b037cda8f868','undo','2026-11-20 09:00:00.000000','2026-11-20 09:00:00.000000','Ida M.',1,'',4);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0001');
CREATE TABLE counter (
	letter VARCHAR NOT NULL, 
	last BIGINT NOT NULL, 
	PRIMARY KEY (letter)
);
INSERT INTO "counter" VALUES('B',0);
INSERT INTO "counter" VALUES('C',1);
INSERT INTO "counter" VALUES('J',1);
INSERT INTO "counter" VALUES('P',2);
INSERT INTO "counter" VALUES('R',3);
CREATE TABLE job (
	id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	site VARCHAR NOT NULL, 
	on_day VARCHAR, 
	kind VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	closed BOOLEAN NOT NULL, 
	opened_at DATETIME NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (code)
);
INSERT INTO "job" VALUES(1,'J0000019','tram shelter','',NULL,'glass','',0,'2026-11-20 09:00:00.000000');
CREATE TABLE "limit" (
	id INTEGER NOT NULL, 
	material_id INTEGER NOT NULL, 
	rule VARCHAR NOT NULL, 
	value VARCHAR NOT NULL, 
	basis VARCHAR NOT NULL, 
	from_at DATETIME NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	operator VARCHAR NOT NULL, 
	why VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(material_id) REFERENCES material (id)
);
INSERT INTO "limit" VALUES(1,1,'shelf','24mo','maker''s sheet','0001-01-02 00:00:00.000000','2026-11-20 09:00:00.000000','Ida M.','as entered');
CREATE TABLE material (
	id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	width_nm BIGINT, 
	thickness_nm BIGINT, 
	applied_nm BIGINT, 
	core_inside_nm BIGINT, 
	core_wall_nm BIGINT, 
	layers TEXT NOT NULL, 
	counted_from VARCHAR NOT NULL, 
	cost_minor BIGINT, 
	note VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (name_key)
);
INSERT INTO "material" VALUES(1,'white cast 1370','white cast 1370','print-vinyl',1370000000,100000,NULL,NULL,NULL,'[]','made',48000,'');
CREATE TABLE move (
	id INTEGER NOT NULL, 
	act_id INTEGER NOT NULL, 
	piece_id INTEGER NOT NULL, 
	seq INTEGER NOT NULL, 
	kind VARCHAR NOT NULL, 
	delta BIGINT NOT NULL, 
	balance BIGINT NOT NULL, 
	used_mm2 BIGINT NOT NULL, 
	wasted_mm2 BIGINT NOT NULL, 
	kept_mm2 BIGINT NOT NULL, 
	cost_minor BIGINT NOT NULL, 
	sets TEXT NOT NULL, 
	facts TEXT NOT NULL, 
	hash VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	CONSTRAINT move_balance CHECK (balance >= 0), 
	FOREIGN KEY(act_id) REFERENCES act (id), 
	FOREIGN KEY(piece_id) REFERENCES piece (id), 
	CONSTRAINT move_piece_seq UNIQUE (piece_id, seq)
);
INSERT INTO "move" VALUES(1,1,1,1,'receive',30000000000,30000000000,0,0,0,0,'{"core_inside_nm":null,"core_wall_nm":null,"cost_minor":48000,"form":"roll","job_id":null,"lot":"L-1","made":"2025-03","material_id":1,"place_id":1,"received":"2026-11-20","thickness_nm":100000,"width_nm":1370000000}','{}','1658f5899287004b67bbc228dc78802254079b82d92797b4c6a0fb1663fb2e05');
INSERT INTO "move" VALUES(2,1,2,1,'receive',30000000000,30000000000,0,0,0,0,'{"core_inside_nm":null,"core_wall_nm":null,"cost_minor":48000,"form":"roll","job_id":null,"lot":"L-1","made":"2025-03","material_id":1,"place_id":1,"received":"2026-11-20","thickness_nm":100000,"width_nm":1370000000}','{}','493bb22a15f650bc58b7fc2d7929c900bbf01ced0db70524df1ce9dd202eb488');
INSERT INTO "move" VALUES(3,3,1,2,'cut',-2200000000,27800000000,2140000,274000,600000,2819,'{}','{"despite":null,"length_nm":2200000000,"reason":null,"verdict":"USE","warning":""}','c1e7328a6ccd727e4f1e1b19ed6eceb4d7c52204d506b4bb4aaa931cf0c9d23f');
INSERT INTO "move" VALUES(4,3,3,1,'keep',1000000000,1000000000,0,0,0,0,'{"cost_minor":701,"form":"offcut","ink":null,"is_laminated":false,"is_wound":true,"job_id":null,"lot":"L-1","made":"2025-03","material_id":1,"owner":"ours","parent":"R000002J","place_id":1,"printed":null,"printed_by":null,"received":"2026-11-20","shelf_passed":null,"shipped":null,"thickness_nm":100000,"width_nm":600000000,"wound_days_before":0,"wound_passed":null,"wound_since":null}','{}','1e6fe9b1e9d674cf80b407cccb36c611088e2855157314234173b5ee6a126010');
INSERT INTO "move" VALUES(5,4,1,3,'cut',-1000000000,26800000000,1370000,0,0,1600,'{}','{"despite":null,"length_nm":1000000000,"reason":null,"verdict":"USE","warning":""}','b55c713f65943584112a7e684c53321dfa14fff9d9a4bc034fda507f394cff13');
INSERT INTO "move" VALUES(6,5,1,4,'undo',1000000000,27800000000,-1370000,0,0,-1600,'{}','{}','8c85eb2763317c9aac4de5b2f4583e6be496214da1f1a9c79c4b3acadf4c0c42');
CREATE TABLE piece (
	id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	seq INTEGER NOT NULL, 
	head VARCHAR NOT NULL, 
	last_at DATETIME NOT NULL, 
	last_kind VARCHAR NOT NULL, 
	form VARCHAR NOT NULL, 
	material_id INTEGER NOT NULL, 
	lot VARCHAR, 
	owner VARCHAR NOT NULL, 
	width_nm BIGINT, 
	balance BIGINT NOT NULL, 
	"full" BIGINT NOT NULL, 
	thickness_nm BIGINT, 
	core_inside_nm BIGINT, 
	core_wall_nm BIGINT, 
	cost_minor BIGINT, 
	made VARCHAR, 
	shipped VARCHAR, 
	received VARCHAR NOT NULL, 
	printed VARCHAR, 
	printed_by VARCHAR, 
	ink VARCHAR, 
	is_laminated BOOLEAN NOT NULL, 
	is_wound BOOLEAN NOT NULL, 
	in_tube BOOLEAN NOT NULL, 
	wound_since VARCHAR, 
	wound_days_before INTEGER NOT NULL, 
	shelf_passed VARCHAR, 
	wound_passed VARCHAR, 
	place_id INTEGER, 
	held VARCHAR, 
	ended VARCHAR, 
	parent VARCHAR, 
	job_id INTEGER, 
	PRIMARY KEY (id), 
	CONSTRAINT piece_balance CHECK (balance >= 0), 
	FOREIGN KEY(job_id) REFERENCES job (id), 
	FOREIGN KEY(material_id) REFERENCES material (id), 
	FOREIGN KEY(place_id) REFERENCES place (id), 
	UNIQUE (code)
);
INSERT INTO "piece" VALUES(1,'R000002J',4,'8c85eb2763317c9aac4de5b2f4583e6be496214da1f1a9c79c4b3acadf4c0c42','2026-11-20 09:00:00.000000','undo','roll',1,'L-1','ours',1370000000,27800000000,30000000000,100000,NULL,NULL,48000,'2025-03',NULL,'2026-11-20',NULL,NULL,NULL,0,1,0,NULL,0,NULL,NULL,1,NULL,NULL,NULL,NULL);
INSERT INTO "piece" VALUES(2,'R000003H',1,'493bb22a15f650bc58b7fc2d7929c900bbf01ced0db70524df1ce9dd202eb488','2026-11-20 09:00:00.000000','receive','roll',1,'L-1','ours',1370000000,30000000000,30000000000,100000,NULL,NULL,48000,'2025-03',NULL,'2026-11-20',NULL,NULL,NULL,0,1,0,NULL,0,NULL,NULL,1,NULL,NULL,NULL,NULL);
INSERT INTO "piece" VALUES(3,'C000001H',1,'1e6fe9b1e9d674cf80b407cccb36c611088e2855157314234173b5ee6a126010','2026-11-20 09:00:00.000000','cut','offcut',1,'L-1','ours',600000000,1000000000,1000000000,100000,NULL,NULL,701,'2025-03',NULL,'2026-11-20',NULL,NULL,NULL,0,1,0,NULL,0,NULL,NULL,1,NULL,NULL,'R000002J',NULL);
CREATE TABLE place (
	id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (code), 
	UNIQUE (name_key)
);
INSERT INTO "place" VALUES(1,'P000002G','A1','a1');
CREATE TABLE place_zone (
	id INTEGER NOT NULL, 
	place_id INTEGER NOT NULL, 
	zone VARCHAR NOT NULL, 
	from_at DATETIME NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	operator VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(place_id) REFERENCES place (id)
);
INSERT INTO "place_zone" VALUES(1,1,'North','0001-01-02 00:00:00.000000','2026-11-20 09:00:00.000000','Ida M.');
CREATE TABLE setting (
	id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	value VARCHAR NOT NULL, 
	from_at DATETIME NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	operator VARCHAR NOT NULL, 
	why VARCHAR NOT NULL, 
	PRIMARY KEY (id)
);
CREATE INDEX ix_setting_name ON setting (name);
CREATE INDEX ix_limit_material_id ON "limit" (material_id);
CREATE INDEX ix_place_zone_place_id ON place_zone (place_id);
CREATE INDEX ix_piece_ended ON piece (ended);
CREATE INDEX ix_piece_last_at ON piece (last_at);
CREATE INDEX ix_piece_material_id ON piece (material_id);
CREATE INDEX ix_piece_place_id ON piece (place_id);
CREATE INDEX ix_act_at ON act (at);
CREATE INDEX ix_act_job_id ON act (job_id);
CREATE INDEX ix_move_act_id ON move (act_id);
CREATE TRIGGER act_no_update BEFORE UPDATE ON "act" BEGIN SELECT RAISE(ABORT, 'act is append-only'); END;
CREATE TRIGGER act_no_delete BEFORE DELETE ON "act" BEGIN SELECT RAISE(ABORT, 'act is append-only'); END;
CREATE TRIGGER act_no_replace BEFORE INSERT ON "act" WHEN EXISTS (SELECT 1 FROM "act" WHERE id = NEW.id OR request = NEW.request OR reverses = NEW.reverses) BEGIN SELECT RAISE(ABORT, 'act is append-only'); END;
CREATE TRIGGER move_no_update BEFORE UPDATE ON "move" BEGIN SELECT RAISE(ABORT, 'move is append-only'); END;
CREATE TRIGGER move_no_delete BEFORE DELETE ON "move" BEGIN SELECT RAISE(ABORT, 'move is append-only'); END;
CREATE TRIGGER move_no_replace BEFORE INSERT ON "move" WHEN EXISTS (SELECT 1 FROM "move" WHERE id = NEW.id OR (piece_id = NEW.piece_id AND seq = NEW.seq)) BEGIN SELECT RAISE(ABORT, 'move is append-only'); END;
CREATE TRIGGER setting_no_update BEFORE UPDATE ON "setting" BEGIN SELECT RAISE(ABORT, 'setting is append-only'); END;
CREATE TRIGGER setting_no_delete BEFORE DELETE ON "setting" BEGIN SELECT RAISE(ABORT, 'setting is append-only'); END;
CREATE TRIGGER setting_no_replace BEFORE INSERT ON "setting" WHEN EXISTS (SELECT 1 FROM "setting" WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'setting is append-only'); END;
CREATE TRIGGER limit_no_update BEFORE UPDATE ON "limit" BEGIN SELECT RAISE(ABORT, 'limit is append-only'); END;
CREATE TRIGGER limit_no_delete BEFORE DELETE ON "limit" BEGIN SELECT RAISE(ABORT, 'limit is append-only'); END;
CREATE TRIGGER limit_no_replace BEFORE INSERT ON "limit" WHEN EXISTS (SELECT 1 FROM "limit" WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'limit is append-only'); END;
CREATE TRIGGER place_zone_no_update BEFORE UPDATE ON "place_zone" BEGIN SELECT RAISE(ABORT, 'place_zone is append-only'); END;
CREATE TRIGGER place_zone_no_delete BEFORE DELETE ON "place_zone" BEGIN SELECT RAISE(ABORT, 'place_zone is append-only'); END;
CREATE TRIGGER place_zone_no_replace BEFORE INSERT ON "place_zone" WHEN EXISTS (SELECT 1 FROM "place_zone" WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'place_zone is append-only'); END;
COMMIT;
