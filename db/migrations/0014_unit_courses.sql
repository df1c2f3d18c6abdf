CREATE TABLE `model_comparisons` (
	`engine_model` text NOT NULL,
	`measure` text NOT NULL,
	`meter_unit` text NOT NULL,
	`stale` integer NOT NULL,
	`model_name` text,
	`units` integer,
	`stand_out` integer,
	`comparison` text,
	`rates` text,
	PRIMARY KEY(`engine_model`, `measure`, `meter_unit`)
);
--> statement-breakpoint
CREATE TABLE `tester_comparisons` (
	`measure` text PRIMARY KEY NOT NULL,
	`stale` integer NOT NULL,
	`comparison` text
);
--> statement-breakpoint
CREATE TABLE `tester_courses` (
	`unit` text NOT NULL,
	`measure` text NOT NULL,
	`courses` text NOT NULL,
	PRIMARY KEY(`unit`, `measure`)
);
--> statement-breakpoint
CREATE INDEX `tester_courses_measure` ON `tester_courses` (`measure`);--> statement-breakpoint
CREATE TABLE `wear_courses` (
	`unit` text NOT NULL,
	`measure` text NOT NULL,
	`engine_model` text NOT NULL,
	`meter_unit` text NOT NULL,
	`course` text NOT NULL,
	PRIMARY KEY(`unit`, `measure`)
);
--> statement-breakpoint
CREATE INDEX `wear_courses_sisters` ON `wear_courses` (`engine_model`,`measure`,`meter_unit`);