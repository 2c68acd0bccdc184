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
INSERT INTO "act" VALUES(1,'r3','291aa34772278681903ee66a68cffa31654875433d9657d859b4a511f6c79121','receive','2026-11-25 09:00:00.000000','2026-11-25 09:00:00.000000','Ida M.',NULL,'',NULL);
INSERT INTO "act" VALUES(2,'r4','95d345d91597b8d468246dbad09034c4d4fc8cdbea106285bec1a8a4470907d1','open','2026-11-25 09:00:00.000000','2026-11-25 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(3,'r5','583e94481c13ba6e439cad5a6ea1845c542b1d88da6f5cca89204279ba6b7414','panels','2026-11-25 09:00:00.000000','2026-11-25 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(4,'r6','41f0f51e4d83c60a5c3ded1d9d1848804700aaa20a2ce2169ca355eab7f36ce5','order','2026-11-25 09:00:00.000000','2026-11-25 09:00:00.000000','Ida M.',NULL,'D000 0010 Northlight Films',NULL);
INSERT INTO "act" VALUES(5,'r7','fa8b4db0103aef042424510867e67dbf147486c70958444dd85a266cb01e07cc','order-send','2026-11-25 09:00:00.000000','2026-11-25 09:00:00.000000','Ida M.',NULL,'D000 0010 Northlight Films',NULL);
INSERT INTO "act" VALUES(6,'r8','deb24baecfe6455e38c0138f645ea2578a9ce8132d9ed8285ec08f32a610d6ed','cut','2026-11-26 09:00:00.000000','2026-11-26 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(7,'r9','a7bf9f721384cc623b611e49d9dc573a55e9627daa731a8d42df39594095532d','cut','2026-11-27 09:00:00.000000','2026-11-27 09:00:00.000000','Ida M.',1,'',NULL);
INSERT INTO "act" VALUES(8,'r10','b2695cab1064bbb030624fbecde20e08733af955447b88d9f294b037cda8f868','undo','2026-11-27 10:00:00.000000','2026-11-27 10:00:00.000000','Ida M.',1,'',7);
INSERT INTO "act" VALUES(9,'r14','c93ddc5d4d2664384e0c51e43855b4bf78296cf02b289d20d831fce67a5a215e','receive','2026-11-27 10:00:00.000000','2026-11-27 10:00:00.000000','Ida M.',NULL,'',NULL);
INSERT INTO "act" VALUES(10,'r15','9ac079297b83cfa57d587a5f1e5a8962a2b0cdf9edcc85183703e324d132452f','close','2026-11-27 11:00:00.000000','2026-11-27 11:00:00.000000','Ida M.',1,'',NULL);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0005');
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
INSERT INTO "counter" VALUES('D',1);
CREATE TABLE course_part (
	zone VARCHAR NOT NULL, 
	gap_s BIGINT NOT NULL, 
	measure VARCHAR NOT NULL, 
	part BIGINT NOT NULL, 
	first_s BIGINT NOT NULL, 
	last_s BIGINT NOT NULL, 
	amount FLOAT NOT NULL, 
	content BLOB NOT NULL, 
	PRIMARY KEY (zone, gap_s, measure, part)
);
CREATE TABLE draft (
	id INTEGER NOT NULL, 
	kind VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	content TEXT NOT NULL, 
	operator VARCHAR NOT NULL, 
	updated_at DATETIME NOT NULL, 
	PRIMARY KEY (id)
);
CREATE TABLE job (
	id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	site VARCHAR NOT NULL, 
	on_day VARCHAR, 
	kind VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	closed BOOLEAN NOT NULL, 
	opened_at DATETIME NOT NULL, glass VARCHAR, 
	PRIMARY KEY (id), 
	UNIQUE (code)
);
INSERT INTO "job" VALUES(1,'J0000019','harbour office','',NULL,'glass','',1,'2026-11-25 09:00:00.000000',NULL);
CREATE TABLE job_entry (
	id INTEGER NOT NULL, 
	act_id INTEGER NOT NULL, 
	job_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	value TEXT NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(act_id) REFERENCES act (id), 
	FOREIGN KEY(job_id) REFERENCES job (id)
);
INSERT INTO "job_entry" VALUES(1,3,1,'panels','[{"group":"","height_nm":2100000000,"layers":1,"material_id":1,"name":"P1","number":1,"overlap_nm":null,"seams":false,"trims_nm":null,"turns":null,"width_nm":900000000}]');
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
INSERT INTO "limit" VALUES(2,1,'energy','60.0','maker''s sheet','0001-01-02 00:00:00.000000','2026-11-25 09:00:00.000000','Ida M.','as entered');
INSERT INTO "limit" VALUES(3,1,'supplier','Northlight Films','maker''s sheet','0001-01-02 00:00:00.000000','2026-11-25 09:00:00.000000','Ida M.','as entered');
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
	note VARCHAR NOT NULL, finish VARCHAR, 
	PRIMARY KEY (id), 
	UNIQUE (name_key)
);
INSERT INTO "material" VALUES(1,'clear 50','clear 50','window-film',1500000000,75000,NULL,76200000,5000000,'[]','made',NULL,'','clear');
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
INSERT INTO "move" VALUES(1,1,1,1,'receive',30000000000,30000000000,0,0,0,0,'{"core_inside_nm":76200000,"core_wall_nm":5000000,"cost_minor":45000,"form":"roll","held":null,"job_id":null,"lot":null,"made":"2026-06-01","material_id":1,"owner":"ours","place_id":1,"received":"2026-11-25","thickness_nm":75000,"width_nm":1500000000}','{}','2e221526793c7d5e236421a9d4c4cbf8a445e073536c7732e6f32b7ffcf7d3a0');
INSERT INTO "move" VALUES(2,6,1,2,'cut',-2000000000,28000000000,3000000,0,0,3000,'{}','{"despite":null,"flaws":[],"length_nm":2000000000,"reason":null,"verdict":"USE","warning":""}','dd7922a8d9490efa1393bcd1c26168c6bb3794c76d34e6d32db562abfeabb995');
INSERT INTO "move" VALUES(3,7,1,3,'cut',-1000000000,27000000000,1020000,0,480000,1020,'{}','{"despite":null,"flaws":[],"length_nm":1000000000,"reason":null,"verdict":"USE","warning":""}','cfebd4bb0689867e4b8b907c9955681e1262085afd17289384d2a986bde7ff98');
INSERT INTO "move" VALUES(4,7,2,1,'keep',800000000,800000000,0,0,0,0,'{"artwork":null,"cost_minor":480,"curl_at_nm":null,"form":"offcut","held":null,"ink":null,"is_laminated":false,"is_wound":true,"job_id":null,"laminate_lot":null,"layers":null,"lot":null,"made":"2026-06-01","material_id":1,"owner":"ours","parent":"R000002J","place_id":1,"printed":null,"printed_by":null,"received":"2026-11-25","shelf_passed":null,"shipped":null,"thickness_nm":75000,"tile":null,"width_nm":600000000,"winding":null,"windings":"[{\"core_outside_nm\":86200000,\"face\":null,\"from\":null,\"how\":\"wound\",\"inner_nm\":27200000000,\"left_nm\":28000000000,\"thickness_nm\":75000,\"turned\":false,\"until\":\"2026-11-27T09:00:00+00:00\"}]","wound_days_before":0,"wound_passed":null,"wound_since":null}','{}','5504671a43988087779bf68fbfb47bb6857ec5fa6750e43d3cf14746e204b46b');
INSERT INTO "move" VALUES(5,8,2,2,'undo',-800000000,0,0,0,0,0,'{}','{}','d570bfce9ba7675f64f1afcca6d2bc4f060eee24d895ad50b1eab04ca06db740');
INSERT INTO "move" VALUES(6,8,1,4,'undo',1000000000,28000000000,-1020000,0,-480000,-1020,'{}','{}','de1659410a3b64a2f64f27fab89096b8449512b775161db4af6796d63499831b');
INSERT INTO "move" VALUES(7,9,3,1,'receive',30000000000,30000000000,0,0,0,0,'{"core_inside_nm":76200000,"core_wall_nm":5000000,"cost_minor":45000,"form":"roll","held":null,"job_id":null,"lot":null,"material_id":1,"owner":"ours","place_id":null,"received":"2026-11-27","thickness_nm":75000,"width_nm":1500000000}','{}','7a2c37452d9ddb095341522b103c7d0bde39009ab902ebcc1a58d6168d0274c7');
CREATE TABLE "order" (
	id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	supplier VARCHAR NOT NULL, 
	drafted_at DATETIME NOT NULL, 
	closed BOOLEAN NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (code)
);
INSERT INTO "order" VALUES(1,'D0000010','Northlight Films','2026-11-25 09:00:00.000000',0);
CREATE TABLE order_entry (
	id INTEGER NOT NULL, 
	act_id INTEGER NOT NULL, 
	order_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	value TEXT NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(act_id) REFERENCES act (id), 
	FOREIGN KEY(order_id) REFERENCES "order" (id)
);
INSERT INTO "order_entry" VALUES(1,4,1,'lines','[{"cost_minor":45000,"job":null,"length_nm":30000000000,"material_id":1,"number":null,"pieces":2,"width_nm":1500000000}]');
INSERT INTO "order_entry" VALUES(2,5,1,'sent','{"expected":"2026-12-02"}');
INSERT INTO "order_entry" VALUES(3,9,1,'came','{"1":1}');
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
	job_id INTEGER, out_to VARCHAR, out_since VARCHAR, out_by VARCHAR, artwork VARCHAR, tile VARCHAR, laminate_lot VARCHAR, winding VARCHAR, mixed VARCHAR, contents VARCHAR, hazard VARCHAR, claim VARCHAR, layers TEXT, flaws TEXT, recount TEXT, parts TEXT, missing TEXT, keeps_days INTEGER, curl_at_nm BIGINT, windings TEXT, reserved TEXT, 
	PRIMARY KEY (id), 
	CONSTRAINT piece_balance CHECK (balance >= 0), 
	FOREIGN KEY(job_id) REFERENCES job (id), 
	FOREIGN KEY(material_id) REFERENCES material (id), 
	FOREIGN KEY(place_id) REFERENCES place (id), 
	UNIQUE (code)
);
INSERT INTO "piece" VALUES(1,'R000002J',4,'de1659410a3b64a2f64f27fab89096b8449512b775161db4af6796d63499831b','2026-11-27 10:00:00.000000','undo','roll',1,NULL,'ours',1500000000,28000000000,30000000000,75000,76200000,5000000,45000,'2026-06-01',NULL,'2026-11-25',NULL,NULL,NULL,0,1,0,NULL,0,NULL,NULL,1,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO "piece" VALUES(2,'C000001H',2,'d570bfce9ba7675f64f1afcca6d2bc4f060eee24d895ad50b1eab04ca06db740','2026-11-27 10:00:00.000000','undo','offcut',1,NULL,'ours',600000000,0,800000000,75000,NULL,NULL,480,'2026-06-01',NULL,'2026-11-25',NULL,NULL,NULL,0,1,0,NULL,0,NULL,NULL,1,NULL,'undone','R000002J',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'[{"core_outside_nm":86200000,"face":null,"from":null,"how":"wound","inner_nm":27200000000,"left_nm":28000000000,"thickness_nm":75000,"turned":false,"until":"2026-11-27T09:00:00+00:00"}]',NULL);
INSERT INTO "piece" VALUES(3,'R000003H',1,'7a2c37452d9ddb095341522b103c7d0bde39009ab902ebcc1a58d6168d0274c7','2026-11-27 10:00:00.000000','receive','roll',1,NULL,'ours',1500000000,30000000000,30000000000,75000,76200000,5000000,45000,NULL,NULL,'2026-11-27',NULL,NULL,NULL,0,1,0,NULL,0,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
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
INSERT INTO "place_zone" VALUES(1,1,'north','0001-01-02 00:00:00.000000','2026-11-25 09:00:00.000000','Ida M.');
CREATE TABLE reading (
	sensor_id BIGINT NOT NULL, 
	at_s BIGINT NOT NULL, 
	temperature_c FLOAT NOT NULL, 
	rh_pct FLOAT, 
	PRIMARY KEY (sensor_id, at_s), 
	FOREIGN KEY(sensor_id) REFERENCES sensor (id)
)
 WITHOUT ROWID

;
INSERT INTO "reading" VALUES(1,1795597200,21.5,48.0);
INSERT INTO "reading" VALUES(1,1795597201,22.5,47.0);
CREATE TABLE sensor (
	id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	name_key VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	UNIQUE (name_key)
);
INSERT INTO "sensor" VALUES(1,'door','door');
CREATE TABLE sensor_entry (
	id INTEGER NOT NULL, 
	sensor_id INTEGER NOT NULL, 
	zone VARCHAR NOT NULL, 
	offset_c FLOAT NOT NULL, 
	offset_rh_pct FLOAT NOT NULL, 
	silent_hours INTEGER NOT NULL, 
	from_at DATETIME NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	operator VARCHAR NOT NULL, 
	why VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(sensor_id) REFERENCES sensor (id)
);
INSERT INTO "sensor_entry" VALUES(1,1,'north',0.0,0.0,3,'0001-01-02 00:00:00.000000','2026-11-27 10:00:00.000000','Ida M.','');
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
CREATE TABLE zone_entry (
	id INTEGER NOT NULL, 
	zone VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	value VARCHAR NOT NULL, 
	from_at DATETIME NOT NULL, 
	recorded_at DATETIME NOT NULL, 
	operator VARCHAR NOT NULL, 
	why VARCHAR NOT NULL, 
	PRIMARY KEY (id)
);
INSERT INTO "zone_entry" VALUES(1,'north','assumed','22.0','2026-11-27 10:00:00.000000','2026-11-27 10:00:00.000000','Ida M.','');
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
CREATE INDEX ix_move_of_place ON move (piece_id, seq) WHERE sets LIKE '%"place_id"%' OR sets LIKE '%"out_to"%';
CREATE INDEX ix_move_of_curl ON move (piece_id, seq) WHERE facts LIKE '%"trial":"curl"%';
CREATE INDEX ix_sensor_entry_sensor_id ON sensor_entry (sensor_id);
CREATE TRIGGER sensor_entry_no_update BEFORE UPDATE ON "sensor_entry" BEGIN SELECT RAISE(ABORT, 'sensor_entry is append-only'); END;
CREATE TRIGGER sensor_entry_no_delete BEFORE DELETE ON "sensor_entry" BEGIN SELECT RAISE(ABORT, 'sensor_entry is append-only'); END;
CREATE TRIGGER sensor_entry_no_replace BEFORE INSERT ON "sensor_entry" WHEN EXISTS (SELECT 1 FROM "sensor_entry" WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'sensor_entry is append-only'); END;
CREATE TRIGGER zone_entry_no_update BEFORE UPDATE ON "zone_entry" BEGIN SELECT RAISE(ABORT, 'zone_entry is append-only'); END;
CREATE TRIGGER zone_entry_no_delete BEFORE DELETE ON "zone_entry" BEGIN SELECT RAISE(ABORT, 'zone_entry is append-only'); END;
CREATE TRIGGER zone_entry_no_replace BEFORE INSERT ON "zone_entry" WHEN EXISTS (SELECT 1 FROM "zone_entry" WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'zone_entry is append-only'); END;
CREATE TRIGGER reading_no_update BEFORE UPDATE ON "reading" BEGIN SELECT RAISE(ABORT, 'reading is append-only'); END;
CREATE TRIGGER reading_no_delete BEFORE DELETE ON "reading" BEGIN SELECT RAISE(ABORT, 'reading is append-only'); END;
CREATE TRIGGER reading_no_replace BEFORE INSERT ON "reading" WHEN EXISTS (SELECT 1 FROM "reading" WHERE sensor_id = NEW.sensor_id AND at_s = NEW.at_s) BEGIN SELECT RAISE(ABORT, 'reading is append-only'); END;
CREATE INDEX ix_piece_reserved ON piece (code) WHERE reserved IS NOT NULL;
CREATE INDEX ix_job_entry_act_id ON job_entry (act_id);
CREATE INDEX ix_job_entry_job_id ON job_entry (job_id);
CREATE TRIGGER job_entry_no_update BEFORE UPDATE ON "job_entry" BEGIN SELECT RAISE(ABORT, 'job_entry is append-only'); END;
CREATE TRIGGER job_entry_no_delete BEFORE DELETE ON "job_entry" BEGIN SELECT RAISE(ABORT, 'job_entry is append-only'); END;
CREATE TRIGGER job_entry_no_replace BEFORE INSERT ON "job_entry" WHEN EXISTS (SELECT 1 FROM "job_entry" WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'job_entry is append-only'); END;
CREATE INDEX ix_order_closed ON "order" (closed);
CREATE INDEX ix_order_entry_act_id ON order_entry (act_id);
CREATE INDEX ix_order_entry_order_id ON order_entry (order_id);
CREATE TRIGGER order_entry_no_update BEFORE UPDATE ON "order_entry" BEGIN SELECT RAISE(ABORT, 'order_entry is append-only'); END;
CREATE TRIGGER order_entry_no_delete BEFORE DELETE ON "order_entry" BEGIN SELECT RAISE(ABORT, 'order_entry is append-only'); END;
CREATE TRIGGER order_entry_no_replace BEFORE INSERT ON "order_entry" WHEN EXISTS (SELECT 1 FROM "order_entry" WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'order_entry is append-only'); END;
COMMIT;
