PRAGMA foreign_keys=OFF;--> statement-breakpoint
CREATE TABLE `__new_depot_periods` (
	`id` integer PRIMARY KEY NOT NULL,
	`depot` text NOT NULL,
	`kind` text NOT NULL,
	`repeat` text NOT NULL,
	`first_week` integer,
	`last_week` integer,
	`first_date` text,
	`last_date` text,
	`remarks` text,
	`by` text NOT NULL,
	`at` text NOT NULL,
	`ended_at` text
);
--> statement-breakpoint
INSERT INTO `__new_depot_periods`("id", "depot", "kind", "repeat", "first_week", "last_week", "first_date", "last_date", "remarks", "by", "at", "ended_at") SELECT "id", "depot", "kind", 'once', NULL, NULL, "first_date", "last_date", "remarks", "by", "at", "ended_at" FROM `depot_periods`;--> statement-breakpoint
DROP TABLE `depot_periods`;--> statement-breakpoint
ALTER TABLE `__new_depot_periods` RENAME TO `depot_periods`;--> statement-breakpoint
PRAGMA foreign_keys=ON;--> statement-breakpoint
CREATE INDEX `depot_periods_depot` ON `depot_periods` (`depot`);