DROP INDEX `import_issues_severity`;--> statement-breakpoint
CREATE INDEX `import_issues_told` ON `import_issues` (`import_id`,`file`,`line`,`id`);--> statement-breakpoint
CREATE INDEX `import_issues_severity` ON `import_issues` (`import_id`,`severity`,`file`,`line`,`id`);