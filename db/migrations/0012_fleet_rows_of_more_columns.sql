ALTER TABLE `fleet_rows` ADD `meter` real DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `unit_class` text;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `engine_serial` text;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `next_test_due` text;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `top_end_chance` real;--> statement-breakpoint
ALTER TABLE `fleet_rows` ADD `bottom_end_chance` real;--> statement-breakpoint
UPDATE `fleet_rows` SET
	`meter` = coalesce(json_extract(`told`.`report`, '$.assessment.meter.value'), 0),
	`unit_class` = json_extract(`told`.`report`, '$.unitClass'),
	`engine_serial` = json_extract(`told`.`report`, '$.assessment.engineSerial'),
	`next_test_due` = json_extract(`told`.`report`, '$.nextTestDue'),
	`top_end_chance` = json_extract(`told`.`report`, '$.assessment.repairs.topEnd.probabilityWithinYear'),
	`bottom_end_chance` = json_extract(`told`.`report`, '$.assessment.repairs.bottomEnd.probabilityWithinYear')
FROM `reports` AS `told` WHERE `told`.`unit` = `fleet_rows`.`unit`;
