PRAGMA application_id = 1852796530;
PRAGMA user_version = 9;
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
CREATE TABLE setting (
  name  TEXT PRIMARY KEY CHECK (name <> ''),
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO setting VALUES('currency','USD');
INSERT INTO setting VALUES('distance','mi');
INSERT INTO setting VALUES('hour','20.00');
INSERT INTO setting VALUES('tools','asset');
CREATE TABLE vehicle (
  tag TEXT PRIMARY KEY CHECK (tag <> '' AND length(tag) <= 24 AND tag NOT GLOB '*[^a-z0-9-]*')
) STRICT, WITHOUT ROWID;
INSERT INTO vehicle VALUES('gull');
INSERT INTO vehicle VALUES('pip');
INSERT INTO vehicle VALUES('teal');
INSERT INTO vehicle VALUES('wren');
CREATE TABLE account (
  account INTEGER PRIMARY KEY,
  kind    TEXT NOT NULL CHECK (kind IN (
    'purse', 'vehicle cost', 'recovered', 'stock', 'core deposit', 'tool deposit', 'tools',   -- assets (recovered is a deduction)
    'payable', 'buyer deposit', 'sales tax',                                                  -- liabilities
    'owner',                                                                                  -- equity
    'sales', 'recovered income', 'deposit kept',                                              -- income
    'cost of sale', 'selling cost', 'late cost', 'written off', 'looking', 'overhead')),      -- expense
  name    TEXT NOT NULL,
  UNIQUE (kind, name)
) STRICT;
INSERT INTO account VALUES(1,'purse','cash');
INSERT INTO account VALUES(2,'owner','');
INSERT INTO account VALUES(3,'vehicle cost','pip');
INSERT INTO account VALUES(4,'core deposit','rack');
INSERT INTO account VALUES(5,'vehicle cost','teal');
INSERT INTO account VALUES(6,'stock','oil');
INSERT INTO account VALUES(7,'tools','asset');
INSERT INTO account VALUES(8,'overhead','');
INSERT INTO account VALUES(9,'recovered','pip');
INSERT INTO account VALUES(10,'purse','card');
INSERT INTO account VALUES(11,'sales','pip');
INSERT INTO account VALUES(12,'selling cost','pip');
INSERT INTO account VALUES(13,'cost of sale','pip');
INSERT INTO account VALUES(14,'late cost','pip');
INSERT INTO account VALUES(15,'vehicle cost','wren');
INSERT INTO account VALUES(16,'looking','wren');
INSERT INTO account VALUES(17,'vehicle cost','gull');
INSERT INTO account VALUES(18,'sales','gull');
INSERT INTO account VALUES(19,'cost of sale','gull');
INSERT INTO account VALUES(20,'late cost','gull');
INSERT INTO account VALUES(21,'recovered','gull');
INSERT INTO account VALUES(22,'recovered income','gull');
INSERT INTO account VALUES(23,'buyer deposit','gull');
INSERT INTO account VALUES(24,'deposit kept','gull');
CREATE TABLE posting (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  seq      INTEGER NOT NULL,
  account  INTEGER NOT NULL REFERENCES account,
  amount   INTEGER NOT NULL,                -- minor units; credits are negative
  quantity INTEGER,                         -- stock only: thousandths of a piece
  PRIMARY KEY (entry, seq)
) STRICT, WITHOUT ROWID;
INSERT INTO posting VALUES(1,1,1,500000,NULL);
INSERT INTO posting VALUES(1,2,2,-500000,NULL);
INSERT INTO posting VALUES(2,1,3,100000,NULL);
INSERT INTO posting VALUES(2,2,1,-100000,NULL);
INSERT INTO posting VALUES(2,3,3,6200,NULL);
INSERT INTO posting VALUES(2,4,1,-6200,NULL);
INSERT INTO posting VALUES(3,1,3,8582,NULL);
INSERT INTO posting VALUES(3,2,4,2000,NULL);
INSERT INTO posting VALUES(3,3,3,1609,NULL);
INSERT INTO posting VALUES(3,4,5,1609,NULL);
INSERT INTO posting VALUES(3,5,1,-13800,NULL);
INSERT INTO posting VALUES(4,1,4,-2000,NULL);
INSERT INTO posting VALUES(4,2,3,500,NULL);
INSERT INTO posting VALUES(4,3,1,1500,NULL);
INSERT INTO posting VALUES(5,1,1,960,NULL);
INSERT INTO posting VALUES(5,2,3,-480,NULL);
INSERT INTO posting VALUES(5,3,5,-480,NULL);
INSERT INTO posting VALUES(6,1,6,2000,5000);
INSERT INTO posting VALUES(6,2,7,6000,NULL);
INSERT INTO posting VALUES(6,3,1,-8000,NULL);
INSERT INTO posting VALUES(7,1,3,800,0);
INSERT INTO posting VALUES(7,2,6,-800,-2000);
INSERT INTO posting VALUES(8,1,6,-200,-500);
INSERT INTO posting VALUES(8,2,8,200,0);
INSERT INTO posting VALUES(9,1,1,2500,NULL);
INSERT INTO posting VALUES(9,2,9,-2500,NULL);
INSERT INTO posting VALUES(10,1,3,4500,NULL);
INSERT INTO posting VALUES(10,2,1,-4500,NULL);
INSERT INTO posting VALUES(11,1,3,3000,NULL);
INSERT INTO posting VALUES(11,2,1,-3000,NULL);
INSERT INTO posting VALUES(12,1,1,200000,NULL);
INSERT INTO posting VALUES(12,2,11,-200000,NULL);
INSERT INTO posting VALUES(12,3,12,2000,NULL);
INSERT INTO posting VALUES(12,4,10,-2000,NULL);
INSERT INTO posting VALUES(12,5,12,10000,NULL);
INSERT INTO posting VALUES(12,6,1,-10000,NULL);
INSERT INTO posting VALUES(12,7,13,122211,NULL);
INSERT INTO posting VALUES(12,8,3,-124711,NULL);
INSERT INTO posting VALUES(12,9,9,2500,NULL);
INSERT INTO posting VALUES(13,1,3,-4500,NULL);
INSERT INTO posting VALUES(13,2,1,4500,NULL);
INSERT INTO posting VALUES(14,1,14,5200,NULL);
INSERT INTO posting VALUES(14,2,3,4500,NULL);
INSERT INTO posting VALUES(14,3,14,-4500,NULL);
INSERT INTO posting VALUES(14,4,1,-5200,NULL);
INSERT INTO posting VALUES(15,1,14,1200,NULL);
INSERT INTO posting VALUES(15,2,1,-1200,NULL);
INSERT INTO posting VALUES(16,1,15,3000,NULL);
INSERT INTO posting VALUES(16,2,1,-3000,NULL);
INSERT INTO posting VALUES(17,1,16,3000,NULL);
INSERT INTO posting VALUES(17,2,15,-3000,NULL);
INSERT INTO posting VALUES(18,1,17,40000,NULL);
INSERT INTO posting VALUES(18,2,1,-40000,NULL);
INSERT INTO posting VALUES(19,1,1,60000,NULL);
INSERT INTO posting VALUES(19,2,18,-60000,NULL);
INSERT INTO posting VALUES(19,3,19,40000,NULL);
INSERT INTO posting VALUES(19,4,17,-40000,NULL);
INSERT INTO posting VALUES(20,1,20,3000,NULL);
INSERT INTO posting VALUES(20,2,1,-3000,NULL);
INSERT INTO posting VALUES(21,1,1,-60000,NULL);
INSERT INTO posting VALUES(21,2,18,60000,NULL);
INSERT INTO posting VALUES(21,3,19,-40000,NULL);
INSERT INTO posting VALUES(21,4,17,40000,NULL);
INSERT INTO posting VALUES(24,1,17,1000,NULL);
INSERT INTO posting VALUES(24,2,7,-1000,NULL);
INSERT INTO posting VALUES(25,1,1,50000,NULL);
INSERT INTO posting VALUES(25,2,21,-44000,NULL);
INSERT INTO posting VALUES(25,3,22,-6000,NULL);
INSERT INTO posting VALUES(26,1,23,-5000,NULL);
INSERT INTO posting VALUES(26,2,1,5000,NULL);
INSERT INTO posting VALUES(27,1,23,5000,NULL);
INSERT INTO posting VALUES(27,2,24,-5000,NULL);
CREATE TABLE entry (
  entry    INTEGER PRIMARY KEY CHECK (entry > 0),
  day      TEXT NOT NULL CHECK (day IS date(day, '+0 days')),  -- ISO 8601, in the calendar
  kind     TEXT NOT NULL CHECK (kind <> ''),        -- the event, in the words of the events file
  money    INTEGER NOT NULL CHECK (money IN (0, 1)),-- 0: a memorandum, which moves no money and has no postings
  event    TEXT NOT NULL,                           -- the event as it can be posted again, one line of TOML
  voids    INTEGER UNIQUE REFERENCES entry,         -- a reversal names the entry that it takes back
  recorded TEXT NOT NULL,                           -- when it was written, ISO 8601, UTC
  previous BLOB NOT NULL CHECK (length(previous) = 32),
  hash     BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;
INSERT INTO entry VALUES(1,'2024-02-01','owner in',1,'{ do = "owner in", date = 2024-02-01, purse = "cash", amount = 5000.00 }',NULL,'2026-11-26T01:21:12Z',X'0000000000000000000000000000000000000000000000000000000000000000',X'8d42a9f9419bfd2588d4380e5b28ec89fb86e587cabf1f2008a154c8e0536ecb');
INSERT INTO entry VALUES(2,'2024-03-01','buy',1,'{ do = "buy", date = 2024-03-01, vehicle = "pip", price = 1000.00, purse = "cash", fees = [{ name = "title", amount = 62.00 }] }',NULL,'2026-11-26T01:21:12Z',X'8d42a9f9419bfd2588d4380e5b28ec89fb86e587cabf1f2008a154c8e0536ecb',X'5017a1121e9495d939770485bc4d4aea255671fdf9b3faafd4aaf5252c6855b8');
INSERT INTO entry VALUES(3,'2024-03-02','receipt',1,'{ do = "receipt", date = 2024-03-02, supplier = "Harrow", number = "17", paid = { cash = 138.00 }, tax = 7.00, shipping = 5.00, discount = 4.00, total = 138.00, line = [{ id = "rack", what = "rack", qty = 1, unit = 80.00, kind = "part", source = "salvage", to = "pip", core = 20.00, taxed = true }, { id = "hose", what = "hose", qty = 3, unit = 10.00, kind = "part", share = { pip = 1, teal = 1 }, taxed = true }] }',NULL,'2026-11-26T01:21:12Z',X'5017a1121e9495d939770485bc4d4aea255671fdf9b3faafd4aaf5252c6855b8',X'a75c92317e2f4ba593c5a329776cd90785beba49bd2030b534cab20147a2dd25');
INSERT INTO entry VALUES(4,'2024-03-04','core back',1,'{ do = "core back", date = 2024-03-04, line = "rack", qty = 1, amount = 15.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'a75c92317e2f4ba593c5a329776cd90785beba49bd2030b534cab20147a2dd25',X'12e01ffef52cb75125e3a5fecc5c3a3636d8cfb1e7319233f0628546fb645b33');
INSERT INTO entry VALUES(5,'2024-03-05','return',1,'{ do = "return", date = 2024-03-05, line = "hose", qty = 1, goods = 10.00, tax = 0.60, restocking = 1.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'12e01ffef52cb75125e3a5fecc5c3a3636d8cfb1e7319233f0628546fb645b33',X'59a94806254aede1f14f92e415ebd8d780c4db2e8fd62e777abf939e1d1e6aa9');
INSERT INTO entry VALUES(6,'2024-03-06','receipt',1,'{ do = "receipt", date = 2024-03-06, supplier = "Harrow", number = "18", paid = { cash = 80.00 }, total = 80.00, tools = "asset", line = [{ id = "oil", what = "oil, jug", qty = 1, amount = 20.00, kind = "stock", stock = "oil", gives = 5 }, { id = "press", what = "press", qty = 1, amount = 60.00, kind = "tool" }] }',NULL,'2026-11-26T01:21:12Z',X'59a94806254aede1f14f92e415ebd8d780c4db2e8fd62e777abf939e1d1e6aa9',X'91d084a6d020ffcf2855f74461992ee005082857594c3134007ea08ab2428796');
INSERT INTO entry VALUES(7,'2024-03-07','draw',1,'{ do = "draw", date = 2024-03-07, vehicle = "pip", stock = "oil", qty = 2 }',NULL,'2026-11-26T01:21:12Z',X'91d084a6d020ffcf2855f74461992ee005082857594c3134007ea08ab2428796',X'bb17c7d480084d3f02fa01748573b1724d031cc941d5a5574ce272d374676b7a');
INSERT INTO entry VALUES(8,'2024-03-08','count',1,'{ do = "count", date = 2024-03-08, stock = "oil", qty = 2.5 }',NULL,'2026-11-26T01:21:12Z',X'bb17c7d480084d3f02fa01748573b1724d031cc941d5a5574ce272d374676b7a',X'd0f81cad2da9996fed0fb87c15ded4b22b1bfbc52aceae576015b00f49fc104d');
INSERT INTO entry VALUES(9,'2024-03-09','recover',1,'{ do = "recover", date = 2024-03-09, vehicle = "pip", what = "seat", amount = 25.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'd0f81cad2da9996fed0fb87c15ded4b22b1bfbc52aceae576015b00f49fc104d',X'20ef1c261cb48932b1442488bd38011fa4699cdbe3ceae6211b0ddec45a5c68a');
INSERT INTO entry VALUES(10,'2024-03-10','receipt',1,'{ do = "receipt", date = 2024-03-10, paid = { cash = 45.00 }, total = 45.00, itemised = false, line = [{ id = "10.1", what = "radiator, I think", qty = 1, amount = 45.00, kind = "part", to = "pip" }] }',NULL,'2026-11-26T01:21:12Z',X'20ef1c261cb48932b1442488bd38011fa4699cdbe3ceae6211b0ddec45a5c68a',X'f49444bed17f4e8686d5c39f2a3ce7dc0e563e4a40682fc97ff79cf7cc3c4c24');
INSERT INTO entry VALUES(11,'2024-03-11','hours',1,'{ do = "hours", date = 2024-03-11, vehicle = "pip", operation = "weld", paid = 2, rate = 15.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'f49444bed17f4e8686d5c39f2a3ce7dc0e563e4a40682fc97ff79cf7cc3c4c24',X'03e3d8c5ff02a066fb7491b3f3a81f565613d1e5548ba89527e9bd5e095383a5');
INSERT INTO entry VALUES(12,'2024-04-01','sell',1,'{ do = "sell", date = 2024-04-01, vehicle = "pip", price = 2000.00, purse = "cash", costs = [{ name = "advert", amount = 20.00, purse = "card" }], commission = 100.00, commission_rate = 0.05 }',NULL,'2026-11-26T01:21:12Z',X'03e3d8c5ff02a066fb7491b3f3a81f565613d1e5548ba89527e9bd5e095383a5',X'c5fd4f934b3f6df20cf11a06b25780b18c491afade9a0ae8a544203b7b0d2b7c');
INSERT INTO entry VALUES(13,'2024-03-10','void',1,'{ do = "void", date = 2024-04-10, entry = 10, why = "replaced by the full paper" }',10,'2026-11-26T01:21:12Z',X'c5fd4f934b3f6df20cf11a06b25780b18c491afade9a0ae8a544203b7b0d2b7c',X'634d15f33564a493c523b7b1914c3ff1e40c78ed22edd37b63f6b18f6338eb20');
INSERT INTO entry VALUES(14,'2024-04-10','receipt',1,'{ do = "receipt", date = 2024-04-10, supplier = "Cleave Yard", number = "88", paid = { cash = 52.00 }, total = 52.00, replaces = 10, line = [{ id = "14.1", what = "radiator", qty = 1, amount = 52.00, kind = "part", to = "pip" }] }',NULL,'2026-11-26T01:21:12Z',X'634d15f33564a493c523b7b1914c3ff1e40c78ed22edd37b63f6b18f6338eb20',X'853ec21ef0b8bded6c4f61ac980ebb9aadd92ac242d8c3b45c714c924fed6dab');
INSERT INTO entry VALUES(15,'2024-05-01','hours',1,'{ do = "hours", date = 2024-05-01, vehicle = "pip", operation = "kindness", paid = 1, rate = 12.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'853ec21ef0b8bded6c4f61ac980ebb9aadd92ac242d8c3b45c714c924fed6dab',X'd3f74881ff9255fadff84291f05a6df455820c725ecaf81552306a4bf5fe0b7b');
INSERT INTO entry VALUES(16,'2024-02-20','hours',1,'{ do = "hours", date = 2024-02-20, vehicle = "wren", operation = "look", paid = 1, rate = 30.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'd3f74881ff9255fadff84291f05a6df455820c725ecaf81552306a4bf5fe0b7b',X'a11df09590972e092c77334ce3e0977823046a60978aecba5a4986b82a9f6916');
INSERT INTO entry VALUES(17,'2024-02-21','pass',1,'{ do = "pass", date = 2024-02-21, vehicle = "wren", why = "rust" }',NULL,'2026-11-26T01:21:12Z',X'a11df09590972e092c77334ce3e0977823046a60978aecba5a4986b82a9f6916',X'cb596a84b39ae7cf9eb9011bbcabcecb9547889a0138c6604f4808c52dca6aab');
INSERT INTO entry VALUES(18,'2024-06-01','buy',1,'{ do = "buy", date = 2024-06-01, vehicle = "gull", price = 400.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'cb596a84b39ae7cf9eb9011bbcabcecb9547889a0138c6604f4808c52dca6aab',X'be819cc5a84459979254a8929f0cbfd5c7fb465b755ff9471347509f3feee837');
INSERT INTO entry VALUES(19,'2024-06-10','sell',1,'{ do = "sell", date = 2024-06-10, vehicle = "gull", price = 600.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'be819cc5a84459979254a8929f0cbfd5c7fb465b755ff9471347509f3feee837',X'07e0eb4e056b562466c50b02e20c863cc3fe0f53f3c4b35f33aff232ac1642e7');
INSERT INTO entry VALUES(20,'2024-06-12','hours',1,'{ do = "hours", date = 2024-06-12, vehicle = "gull", operation = "pump", paid = 1, rate = 30.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'07e0eb4e056b562466c50b02e20c863cc3fe0f53f3c4b35f33aff232ac1642e7',X'abc2d0eefb406a125002fe9b99381eab31d62df95b080508050efc1c59e520f5');
INSERT INTO entry VALUES(21,'2024-06-10','void',1,'{ do = "void", date = 2024-06-15, entry = 19, why = "the cheque bounced" }',19,'2026-11-26T01:21:12Z',X'abc2d0eefb406a125002fe9b99381eab31d62df95b080508050efc1c59e520f5',X'8b4d951a0754ac50fff75ad4e0c53c8a5c31a3875b7da6ea3b67a581bc7da74a');
INSERT INTO entry VALUES(22,'2024-06-16','trip',0,'{ do = "trip", date = 2024-06-16, vehicle = "gull", distance = 12, why = "viewing" }',NULL,'2026-11-26T01:21:12Z',X'8b4d951a0754ac50fff75ad4e0c53c8a5c31a3875b7da6ea3b67a581bc7da74a',X'0effa167abcae3f091be25c7e9dab535e815bdc89ed0668b0ad0cb00a3ff7d5f');
INSERT INTO entry VALUES(23,'2024-06-17','finding',0,'{ do = "finding", date = 2024-06-17, vehicle = "gull", text = "bracket bent", cause = "bracket" }',NULL,'2026-11-26T01:21:12Z',X'0effa167abcae3f091be25c7e9dab535e815bdc89ed0668b0ad0cb00a3ff7d5f',X'032ea616409a5bc9bb637e02f39b29e7f109d600986dedadb0d0f5ff24e367e8');
INSERT INTO entry VALUES(24,'2024-06-18','transfer',1,'{ do = "transfer", date = 2024-06-18, from = "tools", to = "gull", what = "press", amount = 10.00 }',NULL,'2026-11-26T01:21:12Z',X'032ea616409a5bc9bb637e02f39b29e7f109d600986dedadb0d0f5ff24e367e8',X'db246856c05996f29a3f111d4b925d61797f84b1cef077c04815ab410e71c657');
INSERT INTO entry VALUES(25,'2024-06-19','recover',1,'{ do = "recover", date = 2024-06-19, vehicle = "gull", what = "engine", amount = 500.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'db246856c05996f29a3f111d4b925d61797f84b1cef077c04815ab410e71c657',X'6413e6f1a14f5f52b44a436f0087b8872bdc7820dfdf0b8d53d0a20d54271e19');
INSERT INTO entry VALUES(26,'2024-06-20','buyer deposit',1,'{ do = "buyer deposit", date = 2024-06-20, vehicle = "gull", amount = 50.00, purse = "cash" }',NULL,'2026-11-26T01:21:12Z',X'6413e6f1a14f5f52b44a436f0087b8872bdc7820dfdf0b8d53d0a20d54271e19',X'0ecbab116ceeb40fbb13cc3aa24fba7ecdba86c7765e736ce2e8a7fe85a411a1');
INSERT INTO entry VALUES(27,'2024-06-21','deposit kept',1,'{ do = "deposit kept", date = 2024-06-21, vehicle = "gull", amount = 50.00 }',NULL,'2026-11-26T01:21:12Z',X'0ecbab116ceeb40fbb13cc3aa24fba7ecdba86c7765e736ce2e8a7fe85a411a1',X'ea405d3ec398b1c9745477c6d7194907b3ebd70540dabbd9c88be9d837343bb4');
INSERT INTO entry VALUES(28,'2024-06-01','attach',0,'{ do = "attach", date = 2024-06-01, vehicle = "pip", file = "attachments/73cb3858a687a8494ca3323053016282f3dad39d42cf62ca4e79dda2aac7d9ac", name = "title.jpg" }',NULL,'2026-11-26T10:57:38Z',X'ea405d3ec398b1c9745477c6d7194907b3ebd70540dabbd9c88be9d837343bb4',X'b51b74ba3ae1fe548d0ce439a4095bd7b1f665c86b7af8b77b209d38439b18fd');
CREATE TABLE balance (
  account  INTEGER PRIMARY KEY REFERENCES account,
  amount   INTEGER NOT NULL,
  quantity INTEGER NOT NULL
) STRICT;
INSERT INTO balance VALUES(1,566560,0);
INSERT INTO balance VALUES(2,-500000,0);
INSERT INTO balance VALUES(3,0,0);
INSERT INTO balance VALUES(4,0,0);
INSERT INTO balance VALUES(5,1129,0);
INSERT INTO balance VALUES(6,1000,2500);
INSERT INTO balance VALUES(7,5000,0);
INSERT INTO balance VALUES(8,200,0);
INSERT INTO balance VALUES(9,0,0);
INSERT INTO balance VALUES(10,-2000,0);
INSERT INTO balance VALUES(11,-200000,0);
INSERT INTO balance VALUES(12,12000,0);
INSERT INTO balance VALUES(13,122211,0);
INSERT INTO balance VALUES(14,1900,0);
INSERT INTO balance VALUES(15,0,0);
INSERT INTO balance VALUES(16,3000,0);
INSERT INTO balance VALUES(17,41000,0);
INSERT INTO balance VALUES(18,0,0);
INSERT INTO balance VALUES(19,0,0);
INSERT INTO balance VALUES(20,3000,0);
INSERT INTO balance VALUES(21,-44000,0);
INSERT INTO balance VALUES(22,-6000,0);
INSERT INTO balance VALUES(23,0,0);
INSERT INTO balance VALUES(24,-5000,0);
CREATE TABLE line (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line     INTEGER PRIMARY KEY,
  id       TEXT NOT NULL CHECK (id <> ''),
  what     TEXT NOT NULL,
  quantity INTEGER NOT NULL CHECK (quantity > 0),
  amount   INTEGER NOT NULL,
  kind     TEXT NOT NULL CHECK (kind IN ('part', 'consumable', 'sublet', 'fee', 'stock', 'tool', 'overhead', 'private', 'core back')),
  source   TEXT CHECK (source IN ('new', 'salvage', 'reman')),
  taxed    INTEGER NOT NULL CHECK (taxed IN (0, 1)),
  tax      INTEGER NOT NULL,
  extra    INTEGER NOT NULL,
  core     INTEGER NOT NULL CHECK (core >= 0),
  core_tax INTEGER NOT NULL,
  core_by  TEXT CHECK (core_by IS NULL OR core_by IS date(core_by, '+0 days')),
  stock    TEXT,
  gives    INTEGER CHECK (gives > 0),
  supplier TEXT NOT NULL
) STRICT;
INSERT INTO line VALUES(3,1,'rack','rack',1000,8000,'part','salvage',1,509,73,2000,0,NULL,NULL,NULL,'Harrow');
INSERT INTO line VALUES(3,2,'hose','hose',3000,3000,'part',NULL,1,191,27,0,0,NULL,NULL,NULL,'Harrow');
INSERT INTO line VALUES(6,3,'oil','oil, jug',1000,2000,'stock',NULL,0,0,0,0,0,NULL,'oil',5000,'Harrow');
INSERT INTO line VALUES(6,4,'press','press',1000,6000,'tool',NULL,0,0,0,0,0,NULL,NULL,NULL,'Harrow');
INSERT INTO line VALUES(10,5,'10.1','radiator, I think',1000,4500,'part',NULL,0,0,0,0,0,NULL,NULL,NULL,'');
INSERT INTO line VALUES(14,6,'14.1','radiator',1000,5200,'part',NULL,0,0,0,0,0,NULL,NULL,NULL,'Cleave Yard');
CREATE TABLE share (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line     INTEGER NOT NULL REFERENCES line,
  vehicle  TEXT NOT NULL REFERENCES vehicle,
  weight   INTEGER NOT NULL CHECK (weight > 0)
) STRICT;
INSERT INTO share VALUES(3,1,'pip',1000);
INSERT INTO share VALUES(3,2,'pip',1000);
INSERT INTO share VALUES(3,2,'teal',1000);
INSERT INTO share VALUES(10,5,'pip',1000);
INSERT INTO share VALUES(14,6,'pip',1000);
CREATE TABLE given_back (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line     INTEGER NOT NULL REFERENCES line,
  what     TEXT NOT NULL CHECK (what IN ('goods', 'core', 'shelf')),
  quantity INTEGER NOT NULL CHECK (quantity > 0),
  goods    INTEGER NOT NULL CHECK (goods >= 0),
  tax      INTEGER NOT NULL CHECK (tax >= 0),
  kept     INTEGER NOT NULL CHECK (kept >= 0)
) STRICT;
INSERT INTO given_back VALUES(4,1,'core',1000,1500,0,500);
INSERT INTO given_back VALUES(5,2,'goods',1000,1000,60,100);
CREATE TABLE paper (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  supplier TEXT NOT NULL,
  number   TEXT NOT NULL,
  total    INTEGER NOT NULL,
  itemised INTEGER NOT NULL CHECK (itemised IN (0, 1)),
  on_paper INTEGER NOT NULL CHECK (on_paper IN (0, 1)),
  back_by  TEXT CHECK (back_by IS NULL OR back_by IS date(back_by, '+0 days'))
) STRICT;
INSERT INTO paper VALUES(3,'Harrow','17',13800,1,1,NULL);
INSERT INTO paper VALUES(6,'Harrow','18',8000,1,1,NULL);
INSERT INTO paper VALUES(10,'','',4500,0,1,NULL);
INSERT INTO paper VALUES(14,'Cleave Yard','88',5200,1,1,NULL);
CREATE TABLE labour (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  operation TEXT NOT NULL,
  own       INTEGER NOT NULL CHECK (own >= 0),
  paid      INTEGER NOT NULL CHECK (paid >= 0),
  rate      INTEGER NOT NULL CHECK (rate >= 0)
) STRICT;
INSERT INTO labour VALUES(11,'pip','weld',0,2000,1500000);
INSERT INTO labour VALUES(15,'pip','kindness',0,1000,1200000);
INSERT INTO labour VALUES(16,'wren','look',0,1000,3000000);
INSERT INTO labour VALUES(20,'gull','pump',0,1000,3000000);
CREATE TABLE trip (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle  TEXT NOT NULL REFERENCES vehicle,
  distance INTEGER NOT NULL CHECK (distance > 0)
) STRICT;
INSERT INTO trip VALUES(22,'gull',12000);
CREATE TABLE advert (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle TEXT NOT NULL REFERENCES vehicle,
  price   INTEGER NOT NULL CHECK (price > 0)
) STRICT;
CREATE TABLE deposit_by (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  account TEXT NOT NULL,
  supplier TEXT NOT NULL,
  by_day  TEXT CHECK (by_day IS NULL OR by_day IS date(by_day, '+0 days'))
) STRICT;
CREATE TABLE attachment (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle TEXT NOT NULL REFERENCES vehicle,
  sha256  TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  name    TEXT NOT NULL,
  size    INTEGER NOT NULL CHECK (size >= 0)
) STRICT;
INSERT INTO attachment VALUES(28,'pip','73cb3858a687a8494ca3323053016282f3dad39d42cf62ca4e79dda2aac7d9ac','title.jpg',2);
CREATE TABLE mention (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle TEXT NOT NULL REFERENCES vehicle
) STRICT;
INSERT INTO mention VALUES(2,'pip');
INSERT INTO mention VALUES(3,'pip');
INSERT INTO mention VALUES(3,'teal');
INSERT INTO mention VALUES(4,'pip');
INSERT INTO mention VALUES(5,'pip');
INSERT INTO mention VALUES(5,'teal');
INSERT INTO mention VALUES(7,'pip');
INSERT INTO mention VALUES(9,'pip');
INSERT INTO mention VALUES(10,'pip');
INSERT INTO mention VALUES(11,'pip');
INSERT INTO mention VALUES(12,'pip');
INSERT INTO mention VALUES(13,'pip');
INSERT INTO mention VALUES(14,'pip');
INSERT INTO mention VALUES(15,'pip');
INSERT INTO mention VALUES(16,'wren');
INSERT INTO mention VALUES(17,'wren');
INSERT INTO mention VALUES(18,'gull');
INSERT INTO mention VALUES(19,'gull');
INSERT INTO mention VALUES(20,'gull');
INSERT INTO mention VALUES(21,'gull');
INSERT INTO mention VALUES(22,'gull');
INSERT INTO mention VALUES(23,'gull');
INSERT INTO mention VALUES(24,'gull');
INSERT INTO mention VALUES(25,'gull');
INSERT INTO mention VALUES(26,'gull');
INSERT INTO mention VALUES(27,'gull');
INSERT INTO mention VALUES(28,'pip');
CREATE TABLE life (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle TEXT NOT NULL REFERENCES vehicle,
  turn    TEXT NOT NULL CHECK (turn IN ('bought', 'sold', 'finished', 'passed'))
) STRICT;
INSERT INTO life VALUES(2,'pip','bought');
INSERT INTO life VALUES(12,'pip','sold');
INSERT INTO life VALUES(17,'wren','passed');
INSERT INTO life VALUES(18,'gull','bought');
INSERT INTO life VALUES(19,'gull','sold');
CREATE TABLE clock (
  worker    TEXT PRIMARY KEY,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  operation TEXT NOT NULL,
  since     TEXT NOT NULL       -- ISO 8601, UTC
) STRICT, WITHOUT ROWID;
CREATE TABLE taken_in (
  sha256 TEXT PRIMARY KEY,
  name   TEXT NOT NULL,
  day    TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE appraisal (
  appraisal INTEGER PRIMARY KEY,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  day       TEXT NOT NULL CHECK (day IS date(day, '+0 days')),
  entry     INTEGER REFERENCES entry,   -- the purchase that it was made for, where it is the one in force
  job       TEXT NOT NULL,              -- the job file, whole
  figures   TEXT NOT NULL               -- what it came to, JSON
) STRICT;
CREATE TABLE comparable (
  comparable INTEGER PRIMARY KEY,
  model      TEXT NOT NULL,                                    -- '' fits every car
  price      INTEGER NOT NULL CHECK (price > 0),               -- minor units
  kind       TEXT NOT NULL CHECK (kind IN ('asking', 'sold')),
  odometer   INTEGER NOT NULL CHECK (odometer >= 0),           -- thousandths of the book's unit
  year       INTEGER NOT NULL CHECK (year BETWEEN 1886 AND 2200),
  grade      INTEGER NOT NULL CHECK (grade BETWEEN 1000 AND 5000),  -- thousandths; 1 rough, 5 spotless
  day        TEXT NOT NULL CHECK (day = date(day)),            -- when it was seen last
  note       TEXT NOT NULL,
  UNIQUE (model, price, kind, odometer, year, grade, note)     -- the same car pasted again adds nothing
) STRICT;
CREATE TABLE assigned (
  vehicle TEXT NOT NULL REFERENCES vehicle,
  what    TEXT NOT NULL CHECK (what GLOB 'line ?*' OR what GLOB 'entry ?*' OR what GLOB 'operation ?*'),
  heading TEXT NOT NULL CHECK (heading <> ''),
  PRIMARY KEY (vehicle, what)
) STRICT, WITHOUT ROWID;
CREATE TABLE worked (
  vehicle TEXT PRIMARY KEY REFERENCES vehicle,
  own     INTEGER NOT NULL,
  paid    INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO worked VALUES('gull',0,1000);
INSERT INTO worked VALUES('pip',0,3000);
INSERT INTO worked VALUES('wren',0,1000);
CREATE TABLE part_out (
  entry        INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle      TEXT NOT NULL REFERENCES vehicle,
  still_brings INTEGER NOT NULL CHECK (still_brings >= 0)
) STRICT;
CREATE INDEX account_by_name ON account (name);
CREATE TRIGGER account_keeps BEFORE UPDATE ON account BEGIN SELECT RAISE(ABORT, 'accounts are never changed'); END;
CREATE TRIGGER account_stays BEFORE DELETE ON account BEGIN SELECT RAISE(ABORT, 'accounts are never deleted'); END;
CREATE TRIGGER vehicle_keeps BEFORE UPDATE ON vehicle BEGIN SELECT RAISE(ABORT, 'vehicles are never renamed'); END;
CREATE TRIGGER vehicle_stays BEFORE DELETE ON vehicle BEGIN SELECT RAISE(ABORT, 'vehicles are never deleted'); END;
CREATE INDEX posting_by_account ON posting (account, entry);
CREATE INDEX entry_by_day ON entry (day);
CREATE TRIGGER posting_counts AFTER INSERT ON posting BEGIN
  INSERT INTO balance VALUES (NEW.account, NEW.amount, coalesce(NEW.quantity, 0))
  ON CONFLICT (account) DO UPDATE SET amount = amount + NEW.amount, quantity = quantity + coalesce(NEW.quantity, 0);
END;
CREATE TRIGGER entry_balances BEFORE INSERT ON entry
WHEN (SELECT CASE WHEN NEW.money THEN count(*) < 2 OR sum(amount) <> 0 ELSE count(*) <> 0 END
      FROM posting WHERE posting.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry does not add up to zero'); END;
CREATE TRIGGER entry_follows BEFORE INSERT ON entry
WHEN NEW.entry <> (SELECT coalesce(max(entry), 0) + 1 FROM entry)
  OR NEW.previous <> coalesce((SELECT hash FROM entry WHERE entry = NEW.entry - 1), zeroblob(32))
BEGIN SELECT RAISE(ABORT, 'entry does not follow the last one'); END;
CREATE TRIGGER entry_keeps BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entry_stays BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;
CREATE TRIGGER posting_is_closed BEFORE INSERT ON posting
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER posting_keeps BEFORE UPDATE ON posting BEGIN SELECT RAISE(ABORT, 'postings are never changed'); END;
CREATE TRIGGER posting_stays BEFORE DELETE ON posting BEGIN SELECT RAISE(ABORT, 'postings are never deleted'); END;
CREATE TRIGGER reversal_is_of_an_entry BEFORE INSERT ON entry
WHEN NEW.voids IS NOT NULL AND NOT EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.voids AND voids IS NULL)
BEGIN SELECT RAISE(ABORT, 'a reversal cannot be voided'); END;
CREATE TRIGGER reversal_mirrors BEFORE INSERT ON entry
WHEN NEW.voids IS NOT NULL AND EXISTS (
  SELECT account FROM (
    SELECT account, amount, coalesce(quantity, 0) AS quantity FROM posting WHERE entry IN (NEW.entry, NEW.voids))
  GROUP BY account HAVING sum(amount) <> 0 OR sum(quantity) <> 0)
BEGIN SELECT RAISE(ABORT, 'a reversal takes back exactly what was entered'); END;
CREATE INDEX line_by_id ON line (id);
CREATE INDEX line_by_entry ON line (entry);
CREATE INDEX line_with_core ON line (line) WHERE core > 0;
CREATE TRIGGER line_is_closed BEFORE INSERT ON line
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER line_keeps BEFORE UPDATE ON line BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER line_stays BEFORE DELETE ON line BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE TRIGGER share_is_of_its_entry BEFORE INSERT ON share
WHEN NOT EXISTS (SELECT 1 FROM line WHERE line.line = NEW.line AND line.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'a share belongs to a line of its own entry'); END;
CREATE INDEX share_by_line ON share (line);
CREATE INDEX share_by_vehicle ON share (vehicle);
CREATE INDEX share_by_entry ON share (entry);
CREATE TRIGGER share_is_closed BEFORE INSERT ON share
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER share_keeps BEFORE UPDATE ON share BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER share_stays BEFORE DELETE ON share BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX given_back_by_line ON given_back (line);
CREATE INDEX given_back_by_entry ON given_back (entry);
CREATE TRIGGER given_back_is_closed BEFORE INSERT ON given_back
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER given_back_keeps BEFORE UPDATE ON given_back BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER given_back_stays BEFORE DELETE ON given_back BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX paper_by_number ON paper (supplier, number);
CREATE INDEX paper_by_total ON paper (supplier, total);
CREATE INDEX paper_by_entry ON paper (entry);
CREATE INDEX paper_waiting ON paper (itemised) WHERE itemised = 0;
CREATE TRIGGER paper_is_closed BEFORE INSERT ON paper
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER paper_keeps BEFORE UPDATE ON paper BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER paper_stays BEFORE DELETE ON paper BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX labour_by_vehicle ON labour (vehicle, entry);
CREATE INDEX labour_by_entry ON labour (entry);
CREATE TRIGGER labour_is_closed BEFORE INSERT ON labour
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER labour_keeps BEFORE UPDATE ON labour BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER labour_stays BEFORE DELETE ON labour BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX trip_by_vehicle ON trip (vehicle, entry);
CREATE INDEX trip_by_entry ON trip (entry);
CREATE TRIGGER trip_is_closed BEFORE INSERT ON trip
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER trip_keeps BEFORE UPDATE ON trip BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER trip_stays BEFORE DELETE ON trip BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX advert_by_vehicle ON advert (vehicle, entry);
CREATE INDEX advert_by_entry ON advert (entry);
CREATE TRIGGER advert_is_closed BEFORE INSERT ON advert
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER advert_keeps BEFORE UPDATE ON advert BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER advert_stays BEFORE DELETE ON advert BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX deposit_by_account ON deposit_by (account);
CREATE INDEX deposit_by_entry ON deposit_by (entry);
CREATE TRIGGER deposit_by_is_closed BEFORE INSERT ON deposit_by
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER deposit_by_keeps BEFORE UPDATE ON deposit_by BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER deposit_by_stays BEFORE DELETE ON deposit_by BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX attachment_by_vehicle ON attachment (vehicle);
CREATE INDEX attachment_by_entry ON attachment (entry);
CREATE TRIGGER attachment_is_closed BEFORE INSERT ON attachment
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER attachment_keeps BEFORE UPDATE ON attachment BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER attachment_stays BEFORE DELETE ON attachment BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX mention_by_vehicle ON mention (vehicle, entry);
CREATE INDEX mention_by_entry ON mention (entry);
CREATE TRIGGER mention_is_closed BEFORE INSERT ON mention
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER mention_keeps BEFORE UPDATE ON mention BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER mention_stays BEFORE DELETE ON mention BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX life_by_vehicle ON life (vehicle, entry);
CREATE INDEX life_by_entry ON life (entry);
CREATE TRIGGER life_is_closed BEFORE INSERT ON life
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER life_keeps BEFORE UPDATE ON life BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER life_stays BEFORE DELETE ON life BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
CREATE INDEX appraisal_by_vehicle ON appraisal (vehicle);
CREATE TRIGGER appraisal_keeps BEFORE UPDATE OF vehicle, day, job, figures ON appraisal
BEGIN SELECT RAISE(ABORT, 'an appraisal is kept as it stood'); END;
CREATE TRIGGER appraisal_stays BEFORE DELETE ON appraisal BEGIN SELECT RAISE(ABORT, 'an appraisal is kept as it stood'); END;
CREATE TRIGGER labour_counts AFTER INSERT ON labour BEGIN
  INSERT INTO worked VALUES (NEW.vehicle, NEW.own, NEW.paid)
  ON CONFLICT (vehicle) DO UPDATE SET own = own + NEW.own, paid = paid + NEW.paid;
END;
CREATE TRIGGER voided_labour_counts_no_more AFTER INSERT ON entry WHEN NEW.voids IS NOT NULL BEGIN
  UPDATE worked
  SET own = own - (SELECT sum(l.own) FROM labour l WHERE l.entry = NEW.voids AND l.vehicle = worked.vehicle),
      paid = paid - (SELECT sum(l.paid) FROM labour l WHERE l.entry = NEW.voids AND l.vehicle = worked.vehicle)
  WHERE vehicle IN (SELECT l.vehicle FROM labour l WHERE l.entry = NEW.voids);
END;
CREATE VIEW live_entry AS
  SELECT e.* FROM entry e WHERE +e.voids IS NULL AND NOT EXISTS (SELECT 1 FROM entry v WHERE v.voids = e.entry);
CREATE INDEX part_out_by_vehicle ON part_out (vehicle, entry);
CREATE INDEX part_out_by_entry ON part_out (entry);
CREATE TRIGGER part_out_is_closed BEFORE INSERT ON part_out
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER part_out_keeps BEFORE UPDATE ON part_out BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER part_out_stays BEFORE DELETE ON part_out BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
COMMIT;
