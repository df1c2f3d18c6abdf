CREATE TABLE `departures` (
	`id` integer PRIMARY KEY NOT NULL,
	`unit` text NOT NULL,
	`at` text NOT NULL,
	`because` text NOT NULL,
	`import_id` text
);
--> statement-breakpoint
CREATE INDEX `departures_unit` ON `departures` (`unit`,`id`);--> statement-breakpoint
CREATE INDEX `departures_at` ON `departures` (`at`);--> statement-breakpoint
ALTER TABLE `assessments` ADD `depot` text;--> statement-breakpoint
ALTER TABLE `assessments` ADD `band_place` integer;--> statement-breakpoint
ALTER TABLE `assessments` ADD `last_test_date` text;--> statement-breakpoint
ALTER TABLE `assessments` ADD `questions` integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE `assessments` ADD `top_end_status` text DEFAULT 'not-foreseen' NOT NULL;--> statement-breakpoint
ALTER TABLE `assessments` ADD `bottom_end_status` text DEFAULT 'not-foreseen' NOT NULL;--> statement-breakpoint
ALTER TABLE `assessments` ADD `top_end_early_day` integer;--> statement-breakpoint
ALTER TABLE `assessments` ADD `top_end_likely_day` integer;--> statement-breakpoint
ALTER TABLE `assessments` ADD `top_end_late_day` integer;--> statement-breakpoint
ALTER TABLE `assessments` ADD `bottom_end_early_day` integer;--> statement-breakpoint
ALTER TABLE `assessments` ADD `bottom_end_likely_day` integer;--> statement-breakpoint
ALTER TABLE `assessments` ADD `bottom_end_late_day` integer;--> statement-breakpoint
ALTER TABLE `assessments` ADD `basis` text;--> statement-breakpoint
CREATE INDEX `assessments_made` ON `assessments` (`made_at`);--> statement-breakpoint
CREATE INDEX `assessments_unit_made` ON `assessments` (`unit`,`made_at`,`id`);--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `top_end_early_day` integer;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `top_end_likely_day` integer;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `top_end_late_day` integer;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `bottom_end_early_day` integer;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `bottom_end_likely_day` integer;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `bottom_end_late_day` integer;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `issue_id` integer;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `issued_at` text;--> statement-breakpoint
CREATE INDEX `fleet_rows_issued` ON `fleet_rows` (`issued_at`);--> statement-breakpoint
UPDATE `assessments` SET
  `band_place` = CASE `band` WHEN 'past-limit' THEN 0 WHEN 'plan' THEN 1 WHEN 'watch' THEN 2 WHEN 'sound' THEN 3 END,
  `last_test_date` = json_extract(`assessment`, '$.lastTestDate'),
  `questions` = coalesce(json_array_length(`assessment`, '$.questions'), 0),
  `top_end_status` = coalesce(json_extract(`assessment`, '$.repairs.topEnd.status'), 'not-foreseen'),
  `top_end_early_day` = CAST(julianday(json_extract(`assessment`, '$.repairs.topEnd.date.p10')) - 2440587.5 AS integer),
  `top_end_likely_day` = CAST(julianday(json_extract(`assessment`, '$.repairs.topEnd.date.p50')) - 2440587.5 AS integer),
  `top_end_late_day` = CAST(julianday(json_extract(`assessment`, '$.repairs.topEnd.date.p90')) - 2440587.5 AS integer),
  `bottom_end_status` = coalesce(json_extract(`assessment`, '$.repairs.bottomEnd.status'), 'not-foreseen'),
  `bottom_end_early_day` = CAST(julianday(json_extract(`assessment`, '$.repairs.bottomEnd.date.p10')) - 2440587.5 AS integer),
  `bottom_end_likely_day` = CAST(julianday(json_extract(`assessment`, '$.repairs.bottomEnd.date.p50')) - 2440587.5 AS integer),
  `bottom_end_late_day` = CAST(julianday(json_extract(`assessment`, '$.repairs.bottomEnd.date.p90')) - 2440587.5 AS integer),
  `basis` = json_object('perDay', json_extract(`assessment`, '$.meter.perDay'), 'meterUnit', json_extract(`assessment`, '$.meter.unit'), 'pools', json(coalesce(json_extract(`assessment`, '$.pools'), '[]')));--> statement-breakpoint
UPDATE `fleet_rows` SET
  `top_end_early_day` = CAST(julianday(json_extract(`top_end`, '$.p10')) - 2440587.5 AS integer),
  `top_end_likely_day` = CAST(julianday(json_extract(`top_end`, '$.p50')) - 2440587.5 AS integer),
  `top_end_late_day` = CAST(julianday(json_extract(`top_end`, '$.p90')) - 2440587.5 AS integer),
  `bottom_end_early_day` = CAST(julianday(json_extract(`bottom_end`, '$.p10')) - 2440587.5 AS integer),
  `bottom_end_likely_day` = CAST(julianday(json_extract(`bottom_end`, '$.p50')) - 2440587.5 AS integer),
  `bottom_end_late_day` = CAST(julianday(json_extract(`bottom_end`, '$.p90')) - 2440587.5 AS integer),
  `issue_id` = (SELECT max(`id`) FROM `assessments` WHERE `assessments`.`unit` = `fleet_rows`.`unit`),
  `issued_at` = (SELECT max(`made_at`) FROM `assessments` WHERE `assessments`.`unit` = `fleet_rows`.`unit`);
