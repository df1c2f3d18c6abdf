ALTER TABLE `import_files` ADD `refused` integer DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE `import_issues` ADD `entry` text;