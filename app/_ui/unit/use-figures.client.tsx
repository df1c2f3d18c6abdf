"use client";

import { daysBetween } from "@/lib/calendar.ts";
import type { UseCourse } from "@/lib/schema/report.ts";
import type { MeterUnit } from "@/lib/schema/words.ts";
import { useFormats } from "../formats.client.tsx";

/** Shorter pauses say nothing of a unit. */
const standingDays = 28;

/** The twin of the chart of use; a client component so that its spans are sent to the browser once, as data. */
export function UseFigures(props: {
  /** The unit's number. */
  readonly of: string;
  readonly spans: UseCourse["spans"];
  readonly meterUnit: MeterUnit;
}) {
  const { meterUnit } = props;
  const f = useFormats();
  return (
    <table className="data-table">
      <caption className="visually-hidden">Use of {props.of} between meter readings, latest first</caption>
      <thead>
        <tr>
          <th scope="col">From</th>
          <th scope="col">To</th>
          <th scope="col" className="number">
            Used
          </th>
          <th scope="col" className="number">
            A week
          </th>
        </tr>
      </thead>
      <tbody>
        {props.spans.toReversed().map(({ from, to, used }) => (
          <tr key={from}>
            <td>{f.date(from)}</td>
            <td>{f.date(to)}</td>
            <td className="number">{f.meter(used, meterUnit)}</td>
            <td className="number">
              {used === 0 && daysBetween(from, to) >= standingDays
                ? "stood"
                : f.weeklyUse(used / Math.max(1, daysBetween(from, to)), meterUnit)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
