CREATE TABLE `activity` (
	`id` integer PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`by` text NOT NULL,
	`action` text NOT NULL,
	`about` text,
	`detail` text
);
--> statement-breakpoint
CREATE INDEX `activity_about` ON `activity` (`about`);--> statement-breakpoint
CREATE TABLE `assessments` (
	`id` integer PRIMARY KEY NOT NULL,
	`unit` text NOT NULL,
	`as_of` text NOT NULL,
	`made_at` text NOT NULL,
	`because` text NOT NULL,
	`import_id` text,
	`band` text,
	`assessment` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `assessments_unit` ON `assessments` (`unit`,`id`);--> statement-breakpoint
CREATE TABLE `checks` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`fact_key` text NOT NULL,
	`standing` integer NOT NULL,
	`supersedes_id` integer,
	`file_no` integer NOT NULL,
	`line` integer NOT NULL,
	`unit` text NOT NULL,
	`date` text NOT NULL,
	`meter` real,
	`cylinder` integer,
	`check` text NOT NULL,
	`result` text NOT NULL,
	`value` real,
	`value_unit` text,
	`remarks` text,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `checks_key` ON `checks` (`fact_key`,`import_id`);--> statement-breakpoint
CREATE INDEX `checks_unit` ON `checks` (`unit`);--> statement-breakpoint
CREATE INDEX `checks_import` ON `checks` (`import_id`);--> statement-breakpoint
CREATE TABLE `depot_facts` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`fact_key` text NOT NULL,
	`standing` integer NOT NULL,
	`supersedes_id` integer,
	`file_no` integer NOT NULL,
	`line` integer NOT NULL,
	`depot` text NOT NULL,
	`altitude_m` real,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `depot_facts_key` ON `depot_facts` (`fact_key`,`import_id`);--> statement-breakpoint
CREATE INDEX `depot_facts_import` ON `depot_facts` (`import_id`);--> statement-breakpoint
CREATE TABLE `depot_periods` (
	`id` integer PRIMARY KEY NOT NULL,
	`depot` text NOT NULL,
	`kind` text NOT NULL,
	`first_date` text NOT NULL,
	`last_date` text NOT NULL,
	`remarks` text,
	`by` text NOT NULL,
	`at` text NOT NULL,
	`ended_at` text
);
--> statement-breakpoint
CREATE INDEX `depot_periods_depot` ON `depot_periods` (`depot`);--> statement-breakpoint
CREATE TABLE `engine_model_versions` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`fact_key` text NOT NULL,
	`standing` integer NOT NULL,
	`supersedes_id` integer,
	`file_no` integer NOT NULL,
	`line` integer NOT NULL,
	`engine_model` text NOT NULL,
	`version` integer,
	`model` text NOT NULL,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `engine_model_versions_key` ON `engine_model_versions` (`fact_key`,`import_id`);--> statement-breakpoint
CREATE INDEX `engine_model_versions_import` ON `engine_model_versions` (`import_id`);--> statement-breakpoint
CREATE TABLE `engines` (
	`engine` text PRIMARY KEY NOT NULL,
	`serial` text,
	`engine_model` text NOT NULL,
	`meter_unit` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `fittings` (
	`engine` text NOT NULL,
	`place` integer NOT NULL,
	`unit` text NOT NULL,
	`from_date` text,
	`to_date` text,
	`from_x` real NOT NULL,
	`to_x` real,
	PRIMARY KEY(`engine`, `place`),
	FOREIGN KEY (`engine`) REFERENCES `engines`(`engine`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `fittings_unit` ON `fittings` (`unit`);--> statement-breakpoint
CREATE TABLE `fleet_rows` (
	`unit` text PRIMARY KEY NOT NULL,
	`unit_order` text NOT NULL,
	`as_of` text NOT NULL,
	`made_at` text NOT NULL,
	`because` text NOT NULL,
	`import_id` text,
	`engine_model` text NOT NULL,
	`model_name` text NOT NULL,
	`layout` text NOT NULL,
	`depot` text,
	`status` text NOT NULL,
	`band` text,
	`band_place` integer,
	`cylinder_bands` text NOT NULL,
	`place_title` text NOT NULL,
	`place_detail` text NOT NULL,
	`last_test_date` text,
	`test_overdue` integer NOT NULL,
	`questions` integer NOT NULL,
	`per_day` real NOT NULL,
	`meter_unit` text NOT NULL,
	`top_end_status` text NOT NULL,
	`top_end` text NOT NULL,
	`bottom_end_status` text NOT NULL,
	`bottom_end` text NOT NULL,
	`due_place` integer,
	`due_date` text,
	`search_text` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `fleet_rows_due` ON `fleet_rows` (`due_place`,`due_date`);--> statement-breakpoint
CREATE INDEX `fleet_rows_band` ON `fleet_rows` (`band_place`);--> statement-breakpoint
CREATE INDEX `fleet_rows_depot` ON `fleet_rows` (`depot`);--> statement-breakpoint
CREATE INDEX `fleet_rows_as_of` ON `fleet_rows` (`as_of`);--> statement-breakpoint
CREATE TABLE `import_files` (
	`import_id` text NOT NULL,
	`file_no` integer NOT NULL,
	`name` text NOT NULL,
	`kind` text,
	`sha256` text,
	`bytes` integer,
	`rows` integer NOT NULL,
	`new_rows` integer NOT NULL,
	`known_rows` integer NOT NULL,
	`changed_rows` integer NOT NULL,
	`refused_rows` integer NOT NULL,
	`warned_rows` integer NOT NULL,
	PRIMARY KEY(`import_id`, `file_no`),
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `import_files_name` ON `import_files` (`import_id`,`name`);--> statement-breakpoint
CREATE INDEX `import_files_sha256` ON `import_files` (`sha256`);--> statement-breakpoint
CREATE TABLE `import_issues` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`severity` text NOT NULL,
	`code` text NOT NULL,
	`file` text NOT NULL,
	`line` integer,
	`column` text,
	`value` text,
	`words` text NOT NULL,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `import_issues_severity` ON `import_issues` (`import_id`,`severity`);--> statement-breakpoint
CREATE TABLE `import_overlaps` (
	`import_id` text NOT NULL,
	`earlier_import_id` text NOT NULL,
	`rows` integer NOT NULL,
	PRIMARY KEY(`import_id`, `earlier_import_id`),
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`earlier_import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `import_overlaps_earlier` ON `import_overlaps` (`earlier_import_id`);--> statement-breakpoint
CREATE TABLE `imports` (
	`id` text PRIMARY KEY NOT NULL,
	`state` text NOT NULL,
	`by` text NOT NULL,
	`at` text NOT NULL,
	`committed_at` text,
	`committed_by` text,
	`undone_at` text,
	`undone_by` text,
	`rank` integer,
	`take_changes` integer NOT NULL,
	`compared_version` integer,
	`purged` integer NOT NULL,
	`new_rows` integer NOT NULL,
	`known_rows` integer NOT NULL,
	`changed_rows` integer NOT NULL,
	`refused_rows` integer NOT NULL,
	`warned_rows` integer NOT NULL
);
--> statement-breakpoint
CREATE INDEX `imports_at` ON `imports` (`at`);--> statement-breakpoint
CREATE INDEX `imports_state` ON `imports` (`state`);--> statement-breakpoint
CREATE TABLE `meta` (
	`name` text PRIMARY KEY NOT NULL,
	`value` integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE `meter_readings` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`fact_key` text NOT NULL,
	`standing` integer NOT NULL,
	`supersedes_id` integer,
	`file_no` integer NOT NULL,
	`line` integer NOT NULL,
	`unit` text NOT NULL,
	`date` text NOT NULL,
	`meter` real NOT NULL,
	`meter_reset` integer NOT NULL,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `meter_readings_key` ON `meter_readings` (`fact_key`,`import_id`);--> statement-breakpoint
CREATE INDEX `meter_readings_unit` ON `meter_readings` (`unit`);--> statement-breakpoint
CREATE INDEX `meter_readings_import` ON `meter_readings` (`import_id`);--> statement-breakpoint
CREATE TABLE `pools` (
	`id` integer PRIMARY KEY NOT NULL,
	`engine_model` text NOT NULL,
	`measure` text NOT NULL,
	`meter_unit` text NOT NULL,
	`fingerprint` text NOT NULL,
	`pool` text NOT NULL,
	`made_at` text NOT NULL,
	`in_force` integer NOT NULL,
	`replaced_at` text
);
--> statement-breakpoint
CREATE INDEX `pools_in_force` ON `pools` (`in_force`);--> statement-breakpoint
CREATE TABLE `readings` (
	`test_id` integer NOT NULL,
	`cylinder` integer NOT NULL,
	`value` real NOT NULL,
	`value_unit` text NOT NULL,
	`supply` real,
	`first_stroke` real,
	`heard_at` text,
	`order` integer,
	`remarks` text,
	`file_no` integer NOT NULL,
	`line` integer NOT NULL,
	`standing` integer NOT NULL,
	`supersedes_id` integer,
	PRIMARY KEY(`test_id`, `cylinder`),
	FOREIGN KEY (`test_id`) REFERENCES `tests`(`id`) ON UPDATE no action ON DELETE cascade
) WITHOUT ROWID;
--> statement-breakpoint
CREATE INDEX `readings_idle` ON `readings` (`test_id`) WHERE standing >= 2;--> statement-breakpoint
CREATE TABLE `repairs` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`fact_key` text NOT NULL,
	`standing` integer NOT NULL,
	`supersedes_id` integer,
	`file_no` integer NOT NULL,
	`line` integer NOT NULL,
	`unit` text NOT NULL,
	`date` text NOT NULL,
	`meter` real NOT NULL,
	`scope` text NOT NULL,
	`cylinders` text NOT NULL,
	`found` text NOT NULL,
	`cost` real,
	`labour_hours` real,
	`downtime_days` real,
	`engine_serial` text,
	`remarks` text,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `repairs_key` ON `repairs` (`fact_key`,`import_id`);--> statement-breakpoint
CREATE INDEX `repairs_unit` ON `repairs` (`unit`);--> statement-breakpoint
CREATE INDEX `repairs_import` ON `repairs` (`import_id`);--> statement-breakpoint
CREATE INDEX `repairs_engine_serial` ON `repairs` (`engine_serial`);--> statement-breakpoint
CREATE TABLE `reports` (
	`unit` text PRIMARY KEY NOT NULL,
	`report` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `settings` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`value` text,
	`by` text NOT NULL,
	`at` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `settings_name` ON `settings` (`name`,`id`);--> statement-breakpoint
CREATE TABLE `tests` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`fact_key` text NOT NULL,
	`standing` integer NOT NULL,
	`supersedes_id` integer,
	`file_no` integer NOT NULL,
	`line` integer NOT NULL,
	`unit` text NOT NULL,
	`date` text NOT NULL,
	`time` text,
	`meter` real NOT NULL,
	`meter_unit` text NOT NULL,
	`test` text NOT NULL,
	`attempt` integer NOT NULL,
	`instrument` text,
	`depot` text,
	`engine_serial` text,
	`engine_model` text,
	`tested_by` text,
	`orifice_mm` real,
	`warm` integer,
	`throttle_open` integer,
	`all_plugs_out` integer,
	`tdc_confirmed` integer,
	`gauge_zeroed` integer,
	`cranking_rpm` real,
	`altitude_m` real,
	`barometer_kpa` real,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `tests_key` ON `tests` (`fact_key`,`import_id`);--> statement-breakpoint
CREATE INDEX `tests_unit` ON `tests` (`unit`);--> statement-breakpoint
CREATE INDEX `tests_import` ON `tests` (`import_id`);--> statement-breakpoint
CREATE INDEX `tests_engine_serial` ON `tests` (`engine_serial`) WHERE engine_serial is not null;--> statement-breakpoint
CREATE TABLE `unit_facts` (
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
	`status` text NOT NULL,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `unit_facts_key` ON `unit_facts` (`fact_key`,`import_id`);--> statement-breakpoint
CREATE INDEX `unit_facts_unit` ON `unit_facts` (`unit`);--> statement-breakpoint
CREATE INDEX `unit_facts_import` ON `unit_facts` (`import_id`);--> statement-breakpoint
CREATE INDEX `unit_facts_engine_serial` ON `unit_facts` (`engine_serial`);