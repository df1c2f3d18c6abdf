CREATE TABLE `notes` (
	`id` integer PRIMARY KEY NOT NULL,
	`unit` text NOT NULL,
	`text` text NOT NULL,
	`date` text NOT NULL,
	`by` text NOT NULL,
	`at` text NOT NULL,
	`withdrawn_at` text,
	`withdrawn_by` text
);
--> statement-breakpoint
CREATE INDEX `notes_unit` ON `notes` (`unit`);--> statement-breakpoint
ALTER TABLE `engines` ADD `engine_order` text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE `engines` ADD `search_text` text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE `engines` ADD `report` text;