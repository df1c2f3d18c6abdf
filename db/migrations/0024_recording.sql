CREATE TABLE `attachment_parts` (
	`attachment_id` integer NOT NULL,
	`part` integer NOT NULL,
	`bytes` blob NOT NULL,
	PRIMARY KEY(`attachment_id`, `part`),
	FOREIGN KEY (`attachment_id`) REFERENCES `attachments`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `attachments` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`unit` text NOT NULL,
	`date` text NOT NULL,
	`scope` text NOT NULL,
	`cylinders` text NOT NULL,
	`name` text NOT NULL,
	`type` text NOT NULL,
	`size` integer NOT NULL,
	`by` text NOT NULL,
	`at` text NOT NULL,
	`withdrawn_at` text,
	`withdrawn_by` text,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `attachments_unit` ON `attachments` (`unit`);--> statement-breakpoint
CREATE INDEX `attachments_import` ON `attachments` (`import_id`);--> statement-breakpoint
CREATE TABLE `judgements` (
	`id` integer PRIMARY KEY NOT NULL,
	`import_id` text NOT NULL,
	`fact_key` text NOT NULL,
	`standing` integer NOT NULL,
	`supersedes_id` integer,
	`file_no` integer NOT NULL,
	`line` integer NOT NULL,
	`unit` text NOT NULL,
	`date` text NOT NULL,
	`test` text NOT NULL,
	`attempt` integer NOT NULL,
	`instrument` text,
	`cylinder` integer,
	`verdict` text NOT NULL,
	`reason` text NOT NULL,
	`judged_by` text NOT NULL,
	FOREIGN KEY (`import_id`) REFERENCES `imports`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `judgements_key` ON `judgements` (`fact_key`,`import_id`);--> statement-breakpoint
CREATE INDEX `judgements_unit` ON `judgements` (`unit`);--> statement-breakpoint
CREATE INDEX `judgements_import` ON `judgements` (`import_id`);--> statement-breakpoint
ALTER TABLE `repairs` ADD `findings` text DEFAULT '[]' NOT NULL;--> statement-breakpoint
ALTER TABLE `unit_facts` ADD `status_reason` text;