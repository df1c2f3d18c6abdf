ALTER TABLE `reports` ADD `format` integer DEFAULT 0 NOT NULL;--> statement-breakpoint
CREATE INDEX `reports_format` ON `reports` (`format`);