import type { Crossing } from "@/lib/schema/assessment.ts";
import type { IsoDate } from "@/lib/schema/facts.ts";
import type { MeterUnit } from "@/lib/schema/words.ts";
import type { Formats } from "@/lib/viewing/formats.ts";

/**
 * A crossing as the words under a chart: early, late and likely, by date and by meter. A quantile beyond the horizon is
 * said to be so and never made up; an early one that is today's date rules nothing out. `limit`: with its unit.
 */
export function crossingInWords(
  crossing: Crossing,
  limit: string,
  {
    asOf,
    meterUnit,
    f,
    after = null,
  }: {
    readonly asOf: IsoDate;
    readonly meterUnit: MeterUnit;
    readonly f: Formats;
    /** The last test, at which the level had not met the limit yet; null: it had, or has not now. */
    readonly after?: { readonly date: IsoDate; readonly level: string } | null;
  },
): string {
  const { date, meter } = crossing;
  const month = (d: string) => f.forecast(d, date.p10, date.p90);
  const at = (m: number | null) => (m === null ? "" : ` (${f.forecastMeter(m, meterUnit)})`);
  switch (crossing.status) {
    case "crossed":
      return after === null
        ? `At or past its limit of ${limit} now.`
        : `Probably past its limit of ${limit} by now: at ${after.level} when last tested, on ${f.date(after.date)}.`;
    case "too-few-tests":
      return "Too few tests for a range; the next one helps most.";
    case "not-foreseen":
      return `Limit of ${limit} not foreseen within the horizon.`;
    case "projected":
      break;
  }
  if (date.p10 === null) return `Limit of ${limit} not foreseen within the horizon.`;
  const isNow = date.p10 <= asOf;
  const early = isNow ? "now" : `${month(date.p10)}${at(meter.p10)}`;
  if (date.p50 === null) {
    return isNow
      ? `Limit of ${limit} may be met now, but more likely beyond the horizon.`
      : `Limit of ${limit} hardly met before ${early}; likely beyond the horizon.`;
  }
  const likely = `${f.forecastIn(date.p50, date.p10, date.p90)}${at(meter.p50)}`;
  if (date.p90 === null) {
    return `Limit of ${limit} likely met ${likely}, ${isNow ? "perhaps now" : `hardly before ${early}`}; the late end lies beyond the horizon.`;
  }
  return `Limit of ${limit} likely met ${likely}; 8 in 10 between ${early} and ${month(date.p90)}${at(meter.p90)}.`;
}
