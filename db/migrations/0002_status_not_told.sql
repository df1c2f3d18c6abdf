PRAGMA foreign_keys=OFF;--> statement-breakpoint
CREATE TABLE `__new_unit_facts` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`fact_key` text NOT NULL,
	`standing` integer NOT NULL,
	`supersedes_id` integer,
	`file_no` integer NOT NULL,
	`line` integer NOT NULL,
	`unit` text NOT NULL,
	`engine_model` text,
	`meter_unit` text,
	`depot` text,
	`class` text,
	`in_service_date` text,
	`in_service_meter` real,
	`engine_serial` text,
	`disposal_date` text,
	`status` text,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
INSERT INTO `__new_unit_facts`("id", "import_id", "fact_key", "standing", "supersedes_id", "file_no", "line", "unit", "engine_model", "meter_unit", "depot", "class", "in_service_date", "in_service_meter", "engine_serial", "disposal_date", "status") SELECT "id", "import_id", "fact_key", "standing", "supersedes_id", "file_no", "line", "unit", "engine_model", "meter_unit", "depot", "class", "in_service_date", "in_service_meter", "engine_serial", "disposal_date", "status" FROM `unit_facts`;--> statement-breakpoint
DROP TABLE `unit_facts`;--> statement-breakpoint
ALTER TABLE `__new_unit_facts` RENAME TO `unit_facts`;--> statement-breakpoint
PRAGMA foreign_keys=ON;--> statement-breakpoint
CREATE UNIQUE INDEX `unit_facts_key` ON `unit_facts` (`fact_key`,`import_id`);--> statement-breakpoint
CREATE INDEX `unit_facts_unit` ON `unit_facts` (`unit`);--> statement-breakpoint
CREATE INDEX `unit_facts_import` ON `unit_facts` (`import_id`);--> statement-breakpoint
CREATE INDEX `unit_facts_engine_serial` ON `unit_facts` (`engine_serial`);