ALTER TABLE `layouts` ADD `renamed_from` text;--> statement-breakpoint
ALTER TABLE `layouts` ADD `withdrawn_at` text;--> statement-breakpoint
ALTER TABLE `layouts` ADD `withdrawn_by` text;