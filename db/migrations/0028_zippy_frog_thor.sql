CREATE TABLE `budget_inputs` (
	`budget` integer NOT NULL,
	`place` integer NOT NULL,
	`part` text NOT NULL,
	PRIMARY KEY(`budget`, `place`),
	FOREIGN KEY (`budget`) REFERENCES `budgets`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `budgets` (
	`id` integer PRIMARY KEY NOT NULL,
	`plan` integer NOT NULL,
	`as_of` text NOT NULL,
	`made_at` text NOT NULL,
	`by` text NOT NULL,
	`basis` text NOT NULL,
	`seed` integer NOT NULL,
	`draws` integer NOT NULL,
	`document` text NOT NULL,
	`name` text,
	`frozen_at` text,
	`frozen_by` text,
	`withdrawn_at` text,
	`withdrawn_by` text
);
--> statement-breakpoint
CREATE INDEX `budgets_name` ON `budgets` (`name`);--> statement-breakpoint
CREATE TABLE `plan_bookings` (
	`plan` integer NOT NULL,
	`place` integer NOT NULL,
	`unit` text NOT NULL,
	`scope` text NOT NULL,
	`start` text NOT NULL,
	`as_of` text NOT NULL,
	PRIMARY KEY(`plan`, `place`),
	FOREIGN KEY (`plan`) REFERENCES `plans`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `plan_bookings_unit` ON `plan_bookings` (`unit`,`plan`);--> statement-breakpoint
CREATE TABLE `plan_choices` (
	`id` integer PRIMARY KEY NOT NULL,
	`unit` text NOT NULL,
	`kind` text NOT NULL,
	`scope` text NOT NULL,
	`date` text,
	`by` text NOT NULL,
	`at` text NOT NULL,
	`ended_at` text,
	`ended_by` text,
	`ended_because` text
);
--> statement-breakpoint
CREATE INDEX `plan_choices_unit` ON `plan_choices` (`unit`);--> statement-breakpoint
CREATE INDEX `plan_choices_ended` ON `plan_choices` (`ended_at`);--> statement-breakpoint
CREATE TABLE `plans` (
	`id` integer PRIMARY KEY NOT NULL,
	`as_of` text NOT NULL,
	`made_at` text NOT NULL,
	`by` text NOT NULL,
	`basis` text NOT NULL,
	`workshop` text NOT NULL,
	`plan` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `scenario_results` (
	`scenario` integer PRIMARY KEY NOT NULL,
	`basis` text NOT NULL,
	`made_at` text NOT NULL,
	`result` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `scenarios` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`change` text NOT NULL,
	`by` text NOT NULL,
	`at` text NOT NULL,
	`withdrawn_at` text,
	`withdrawn_by` text
);
--> statement-breakpoint
CREATE TABLE `workshop_changes` (
	`id` integer PRIMARY KEY NOT NULL,
	`workshop` text NOT NULL,
	`by` text NOT NULL,
	`at` text NOT NULL
);
--> statement-breakpoint
ALTER TABLE `depot_changes` ADD `days_per_week` integer;--> statement-breakpoint
ALTER TABLE `depot_changes` ADD `builders` integer;--> statement-breakpoint
ALTER TABLE `depot_changes` ADD `labour_rate` real;