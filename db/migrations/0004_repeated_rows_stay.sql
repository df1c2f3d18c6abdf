DROP TABLE `import_overlaps`;--> statement-breakpoint
DROP INDEX `readings_idle`;