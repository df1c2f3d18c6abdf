CREATE TABLE `import_file_parts` (
	`import_id` text NOT NULL,
	`file_no` integer NOT NULL,
	`part` integer NOT NULL,
	`bytes` blob NOT NULL,
	PRIMARY KEY(`import_id`, `file_no`, `part`),
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `layouts` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`header` text NOT NULL,
	`layout` text NOT NULL,
	`by` text NOT NULL,
	`at` text NOT NULL,
	`withdrawn` integer DEFAULT false NOT NULL
);
--> statement-breakpoint
CREATE INDEX `layouts_name` ON `layouts` (`name`);--> statement-breakpoint
CREATE INDEX `layouts_header` ON `layouts` (`header`);