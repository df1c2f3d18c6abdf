import type { DepotPeriod, DepotSetup } from "../../../lib/schema/depot.ts";
import type { DepotFields, PeriodFields } from "./depot-form.ts";

/** What a depot has, as figures in its form. */
export const depotFigures = [
  "bays",
  "technicians",
  "productiveHoursPerDay",
  "daysPerWeek",
  "builders",
  "labourRate",
] as const satisfies readonly (keyof DepotSetup)[];

const asText = (value: number | null): string => (value === null ? "" : String(value));

/** What is told of a depot, as the form begins with it. */
export function depotFields({ periods, ...capacity }: DepotSetup): DepotFields {
  return {
    bays: asText(capacity.bays),
    technicians: asText(capacity.technicians),
    productiveHoursPerDay: asText(capacity.productiveHoursPerDay),
    daysPerWeek: asText(capacity.daysPerWeek),
    builders: asText(capacity.builders),
    labourRate: asText(capacity.labourRate),
    retired: capacity.retired,
    periods: periods.map((period, key) => ({
      ...blankPeriod(key, period.repeat),
      kind: period.kind,
      remarks: period.remarks ?? "",
      ...(period.repeat === "once"
        ? { firstDate: period.firstDate, lastDate: period.lastDate }
        : { firstWeek: String(period.firstWeek), lastWeek: String(period.lastWeek) }),
    })),
  };
}

/** A period to be filled in. */
export const blankPeriod = (key: number, repeat: DepotPeriod["repeat"]): PeriodFields => ({
  key,
  kind: "closed",
  repeat,
  firstWeek: "",
  lastWeek: "",
  firstDate: "",
  lastDate: "",
  remarks: "",
});

/** Whether two forms say the same; the keys of their rows do not count. */
export const sameFields = (a: DepotFields, b: DepotFields): boolean =>
  parts.every((part) => said(a, part) === said(b, part));

const parts = [...depotFigures, "retired", "periods"] as const satisfies readonly (keyof DepotFields)[];

const said = (fields: DepotFields, part: keyof DepotFields): string =>
  part === "periods" ? JSON.stringify(fields.periods.map(({ key, ...period }) => period)) : String(fields[part]).trim();

/**
 * A form after what is kept has changed from `told` to `kept`: parts that were not touched follow, the others stay as they
 * were typed. `conflict`: a part was touched here and changed there, to something else.
 */
export function followFields({
  typed,
  told,
  kept,
}: {
  readonly typed: DepotFields;
  readonly told: DepotFields;
  readonly kept: DepotFields;
}): { readonly fields: DepotFields; readonly conflict: boolean } {
  const touched = parts.filter((part) => said(typed, part) !== said(told, part));
  const fields = { ...kept, ...Object.fromEntries(touched.map((part) => [part, typed[part]])) };
  const conflict = touched.some(
    (part) => said(kept, part) !== said(told, part) && said(kept, part) !== said(typed, part),
  );
  return { fields, conflict };
}
