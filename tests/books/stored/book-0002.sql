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
INSERT INTO "act" VALUES(1,'r4','5a300bda4126c9eda839d8b2230b97e851fd1213fc6917e362f145c8490c625f','receive','2026-11-25 09:00:00.000000','2026-11-25 09:00:00.000000','Ida M.',NULL,'',NULL);
INSERT INTO "act" VALUES(2,'r5','2ed3f26156bec8ea3cf3790adf50af54ddcc55e072f48accf3615295c8b19e6b','open','2026-11-25 09:00:00.000000','2026-11-25 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(3,'r6','deb24baecfe6455e38c0138f645ea2578a9ce8132d9ed8285ec08f32a610d6ed','cut','2026-11-26 09:00:00.000000','2026-11-26 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(4,'r7','e2489366ff69f9e4baef82d16e6f959c9482ec60ebbf6b6242653f51d6144d1a','cut','2026-11-27 09:00:00.000000','2026-11-27 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(5,'r8','b2695cab1064bbb030624fbecde20e08733af955447b88d9f294b037cda8f868','undo','2026-11-27 10:00:00.000000','2026-11-27 10:00:00.000000','Ida M.',1,'',4);
INSERT INTO "act" VALUES(6,'r9','477cdf42d7ea3dbefa12c67546e8f4209b3eee4166ad2190b033fe607cbdc091','out','2026-11-28 10:00:00.000000','2026-11-28 10:00:00.000000','Ida M.',NULL,'',NULL);
INSERT INTO "act" VALUES(7,'r10','b539ef4debb82304e08a7da07dd0fe155aedc5a247bc2317ccbe5504ecf8f12c','in','2026-11-29 10:00:00.000000','2026-11-29 10:00:00.000000','Ida M.',NULL,'',NULL);
INSERT INTO "act" VALUES(8,'r12','61025fc14ef143d1b9f9ece05b85eced73e96f34cb019d1f5ad9b4d10266a0d2','receive','2026-11-29 10:00:00.000000','2026-11-29 10:00:00.000000','Ida M.',NULL,'',NULL);
INSERT INTO "act" VALUES(9,'r13','c4c07d523b5b7dc0d9d5ae5bd23453d5ba6f7f2ec6e8630ad9d55347c329e77f','put','2026-11-29 10:00:00.000000','2026-11-29 10:00:00.000000','Ida M.',NULL,'',NULL);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0002');
CREATE TABLE counter (
	letter VARCHAR NOT NULL, 
	last BIGINT NOT NULL, 
	PRIMARY KEY (letter)
);
INSERT INTO "counter" VALUES('B',0);
INSERT INTO "counter" VALUES('C',1);
INSERT INTO "counter" VALUES('J',1);
INSERT INTO "counter" VALUES('P',3);
INSERT INTO "counter" VALUES('R',3);
CREATE TABLE draft (
	id INTEGER NOT NULL, 
	kind VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	content TEXT NOT NULL, 
	operator VARCHAR NOT NULL, 
	updated_at DATETIME NOT NULL, 
	PRIMARY KEY (id)
);
INSERT INTO "draft" VALUES(1,'delivery','half','{"a":1}','Ida M.','2026-11-29 10:00:00.000000');
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
INSERT INTO "job" VALUES(1,'J0000019','harbour office','',NULL,'glass','',0,'2026-11-25 09:00:00.000000');
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
INSERT INTO "limit" VALUES(1,1,'shelf','24mo','maker''s sheet','0001-01-02 00:00:00.000000','2026-11-25 09:00:00.000000','Ida M.','as entered');
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
INSERT INTO "material" VALUES(1,'clear 50','clear 50','window-film',1500000000,75000,NULL,76200000,5000000,'[]','made',NULL,'');
INSERT INTO "material" VALUES(2,'white cast','white cast','print-vinyl',1500000000,75000,NULL,76200000,5000000,'[]','made',NULL,'');
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
INSERT INTO "move" VALUES(1,1,1,1,'receive',30000000000,30000000000,0,0,0,0,'{"core_inside_nm":76200000,"core_wall_nm":5000000,"cost_minor":45000,"form":"roll","held":null,"job_id":null,"lot":null,"made":"2026-06-01","material_id":1,"owner":"ours","place_id":1,"received":"2026-11-25","thickness_nm":75000,"width_nm":1500000000}','{}','91526952d113cb7de9684cb60b7ddec9fe46106e9ca056686069df1a108bbbb8');
INSERT INTO "move" VALUES(2,3,1,2,'cut',-2000000000,28000000000,3000000,0,0,3000,'{}','{"despite":null,"flaws":[],"length_nm":2000000000,"reason":null,"verdict":"USE","warning":""}','f2e1a66d4bd7df9084452f6ed4ed0d0acf5bda5b84e80526a54b2fc1fe4cb817');
INSERT INTO "move" VALUES(3,4,1,3,'cut',-1000000000,27000000000,300000,0,1200000,300,'{}','{"despite":null,"flaws":[],"length_nm":1000000000,"reason":null,"verdict":"USE","warning":""}','6aee01a65090b156019a781b244c2ccf0fdb70bb5f6cc6bcef6f1e1eb638e27c');
INSERT INTO "move" VALUES(4,4,2,1,'keep',1000000000,1000000000,0,0,0,0,'{"artwork":null,"cost_minor":1200,"form":"offcut","held":null,"ink":null,"is_laminated":false,"is_wound":true,"job_id":null,"laminate_lot":null,"layers":null,"lot":null,"made":"2026-06-01","material_id":1,"owner":"ours","parent":"R000002J","place_id":1,"printed":null,"printed_by":null,"received":"2026-11-25","shelf_passed":null,"shipped":null,"thickness_nm":75000,"tile":null,"width_nm":1200000000,"winding":null,"wound_days_before":0,"wound_passed":null,"wound_since":null}','{}','dc378d607e2314d7ad985f8ca62dde0ea6db5c9bbacf445596b7de2df64237c0');
INSERT INTO "move" VALUES(5,5,2,2,'undo',-1000000000,0,0,0,0,0,'{}','{}','cb332902cb037c745b6d30a1846cd1a46161bde84b0f672f9904ea65bbc05d44');
INSERT INTO "move" VALUES(6,5,1,4,'undo',1000000000,28000000000,-300000,0,-1200000,-300,'{}','{}','4f0a8e22e11c70b6fbcca3f7fdd288d13f42026d972ec1c42edf77ddbd801dcf');
INSERT INTO "move" VALUES(7,6,1,5,'out',0,28000000000,0,0,0,0,'{"out_by":"Ida M.","out_since":"2026-11-28T10:00:00+00:00","out_to":"van 2"}','{"despite":null,"warning":""}','8056b0934c821fd88573072a148c51350d1ed9b00f10d6b7251ba30bfcc092d1');
INSERT INTO "move" VALUES(8,7,1,6,'in',0,28000000000,0,0,0,0,'{"out_by":null,"out_since":null,"out_to":null}','{"from":"van 2","reason":null,"used":0}','36ee6d392e4f3ab215dbbf26609c8b643c679aab3d594d992d080a447f41a7df');
INSERT INTO "move" VALUES(9,8,3,1,'receive',30000000000,30000000000,0,0,0,0,'{"core_inside_nm":76200000,"core_wall_nm":5000000,"cost_minor":45000,"form":"roll","held":null,"job_id":null,"lot":null,"made":"2026-06-01","material_id":2,"owner":"ours","place_id":null,"received":"2026-11-29","thickness_nm":75000,"width_nm":1500000000}','{}','64d814a847823437aa16679ac63326db178c61cccf1665d643fce5cc39e8dacc');
INSERT INTO "move" VALUES(10,9,3,2,'put',0,30000000000,0,0,0,0,'{"place_id":2}','{}','3d447852973e0a6812fc092d0a6603c9b2119378484d53f7f56849dd01094fdb');
CREATE TABLE person (
	id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	"key" INTEGER, 
	PRIMARY KEY (id), 
	UNIQUE (name_key), 
	UNIQUE ("key")
);
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
	job_id INTEGER, out_to VARCHAR, out_since VARCHAR, out_by VARCHAR, artwork VARCHAR, tile VARCHAR, laminate_lot VARCHAR, winding VARCHAR, mixed VARCHAR, contents VARCHAR, hazard VARCHAR, claim VARCHAR, layers TEXT, flaws TEXT, recount TEXT, parts TEXT, missing TEXT, keeps_days INTEGER, 
	PRIMARY KEY (id), 
	CONSTRAINT piece_balance CHECK (balance >= 0), 
	FOREIGN KEY(job_id) REFERENCES job (id), 
	FOREIGN KEY(material_id) REFERENCES material (id), 
	FOREIGN KEY(place_id) REFERENCES place (id), 
	UNIQUE (code)
);
INSERT INTO "piece" VALUES(1,'R000002J',6,'36ee6d392e4f3ab215dbbf26609c8b643c679aab3d594d992d080a447f41a7df','2026-11-29 10:00:00.000000','in','roll',1,NULL,'ours',1500000000,28000000000,30000000000,75000,76200000,5000000,45000,'2026-06-01',NULL,'2026-11-25',NULL,NULL,NULL,0,1,0,NULL,0,NULL,NULL,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "piece" VALUES(2,'C000001H',2,'cb332902cb037c745b6d30a1846cd1a46161bde84b0f672f9904ea65bbc05d44','2026-11-27 10:00:00.000000','undo','offcut',1,NULL,'ours',1200000000,0,1000000000,75000,NULL,NULL,1200,'2026-06-01',NULL,'2026-11-25',NULL,NULL,NULL,0,1,0,NULL,0,NULL,NULL,1,NULL,'undone','R000002J',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "piece" VALUES(3,'R000003H',2,'3d447852973e0a6812fc092d0a6603c9b2119378484d53f7f56849dd01094fdb','2026-11-29 10:00:00.000000','put','roll',2,NULL,'ours',1500000000,30000000000,30000000000,75000,76200000,5000000,45000,'2026-06-01',NULL,'2026-11-29',NULL,NULL,NULL,0,1,0,NULL,0,NULL,NULL,2,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
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
INSERT INTO "place" VALUES(2,'P000003E','van 2','van 2');
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
INSERT INTO "place_zone" VALUES(1,1,'north','0001-01-02 00:00:00.000000','2026-11-25 09:00:00.000000','Ida M.');
INSERT INTO "place_zone" VALUES(2,2,'van','0001-01-02 00:00:00.000000','2026-11-25 09:00:00.000000','Ida M.');
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
CREATE INDEX ix_piece_out_to ON piece (out_to);
CREATE INDEX ix_draft_kind ON draft (kind);
COMMIT;
