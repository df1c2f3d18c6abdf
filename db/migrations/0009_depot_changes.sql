CREATE TABLE `depot_changes` (
	`id` integer PRIMARY KEY NOT NULL,
	`depot` text NOT NULL,
	`bays` integer,
	`technicians` integer,
	`productive_hours_per_day` real,
	`by` text NOT NULL,
	`at` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `depot_changes_depot` ON `depot_changes` (`depot`);--> statement-breakpoint
ALTER TABLE `depot_periods` ADD `ended_by` integer;--> statement-breakpoint
CREATE INDEX `tests_depot` ON `tests` (`depot`,`import_id`) WHERE depot is not null;