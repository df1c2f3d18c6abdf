import type { DepotPeriod, DepotSetup } from "../../../lib/schema/depot.ts";
import type { DepotFields, PeriodFields } from "./depot-form.ts";

const asText = (value: number | null): string => (value === null ? "" : String(value));

/** What is told of a depot, as the form begins with it. */
export function depotFields({ periods, ...capacity }: DepotSetup): DepotFields {
  return {
    bays: asText(capacity.bays),
    technicians: asText(capacity.technicians),
    productiveHoursPerDay: asText(capacity.productiveHoursPerDay),
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

/** A figure as people type it, with a comma or a point; blank: null. NaN: no figure. */
export const figureOf = (text: string): number | null =>
  text.trim() === "" ? null : Number(text.trim().replace(",", "."));

/** Whether two forms say the same; the keys of their rows do not count. */
export const sameFields = (a: DepotFields, b: DepotFields): boolean => said(a) === said(b);

const said = ({ periods, ...capacity }: DepotFields): string =>
  JSON.stringify([capacity, periods.map(({ key, ...period }) => period)]);
