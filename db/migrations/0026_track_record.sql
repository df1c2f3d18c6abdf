CREATE TABLE `track_cases` (
	`place` integer PRIMARY KEY NOT NULL,
	`levels` text NOT NULL,
	`limits` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `track_records` (
	`id` integer PRIMARY KEY NOT NULL,
	`basis` text NOT NULL,
	`format` integer NOT NULL,
	`made_at` text NOT NULL,
	`record` text NOT NULL
);
