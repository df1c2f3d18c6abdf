import type { DepotPeriod, DepotPeriodKind } from "../lib/schema/depot.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** Facts that a person gives the app itself: settings, the depots' calendar, and who did what. */
export function houseTables(v: Vocabulary) {
  /** Every value that a setting ever had; the one with the highest id is in force. */
  const settings = v.table(
    "settings",
    {
      id: v.id(),
      name: v.text().notNull(),
      value: v.json<unknown>(),
      by: v.text().notNull(),
      at: v.instant().notNull(),
    },
    (t) => [v.index("settings_name").on(t.name, t.id)],
  );

  const depotPeriods = v.table(
    "depot_periods",
    {
      id: v.id(),
      depot: v.text().notNull(),
      kind: v.word<DepotPeriodKind>().notNull(),
      repeat: v.word<DepotPeriod["repeat"]>().notNull(),
      /** ISO weeks of every year; null: once, between the dates. */
      firstWeek: v.int(),
      lastWeek: v.int(),
      firstDate: v.date(),
      lastDate: v.date(),
      remarks: v.text(),
      by: v.text().notNull(),
      at: v.instant().notNull(),
      /** When it was withdrawn or replaced; null: in force. */
      endedAt: v.instant(),
      /** The change of the depot that did so. */
      endedBy: v.int(),
    },
    (t) => [v.index("depot_periods_depot").on(t.depot)],
  );

  /**
   * Every change of what people tell of a depot; that with the highest id is in force. Its periods have lower ids than
   * the change that brought them, and higher ones than the change before.
   */
  const depotChanges = v.table(
    "depot_changes",
    {
      id: v.id(),
      depot: v.text().notNull(),
      bays: v.int(),
      technicians: v.int(),
      productiveHoursPerDay: v.real(),
      daysPerWeek: v.int(),
      builders: v.int(),
      labourRate: v.real(),
      retired: v.bool().notNull().default(false),
      by: v.text().notNull(),
      at: v.instant().notNull(),
    },
    (t) => [v.index("depot_changes_depot").on(t.depot)],
  );

  const activity = v.table(
    "activity",
    {
      id: v.id(),
      at: v.instant().notNull(),
      by: v.text().notNull(),
      /** What was done, as a word of the program: `import-committed`, `settings-changed` … */
      action: v.text().notNull(),
      /** What it was done to: an import's id, a unit, a setting. */
      about: v.text(),
      detail: v.json<Readonly<Record<string, string | number | boolean | null>>>(),
    },
    (t) => [v.index("activity_about").on(t.about)],
  );

  return { settings, depotPeriods, depotChanges, activity };
}
