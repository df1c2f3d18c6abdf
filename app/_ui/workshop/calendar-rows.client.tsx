"use client";

import { Button } from "@mantine/core";
import type { FieldProblems } from "../asking/field-problems.ts";
import type { PeriodFields } from "../depots/depot-form.ts";
import { PeriodRow } from "../depots/period-row.client.tsx";
import { newPeriod } from "./workshop-fields.ts";

/** Peak and closed periods of a depot that tells none of its own. */
export function CalendarRows(props: {
  readonly periods: readonly PeriodFields[];
  readonly year: number;
  readonly problems: FieldProblems;
  readonly onChange: (periods: readonly PeriodFields[]) => void;
}) {
  const { periods, problems, onChange } = props;
  const add = (repeat: PeriodFields["repeat"]) => onChange([...periods, newPeriod(repeat, periods)]);
  return (
    <>
      <p className="second">
        Peak and closed periods, of depots that tell none: closed weeks take no work, peak weeks make days out of
        service dearer.
      </p>
      {periods.length > 0 && (
        <ol className="form-list">
          {periods.map((period, i) => (
            <PeriodRow
              key={period.key}
              number={i + 1}
              period={period}
              year={props.year}
              problem={(name) => problems[name === "" ? `periods.${i}` : `periods.${i}.${name}`]}
              onChange={(more) => onChange(periods.map((one) => (one.key === period.key ? { ...one, ...more } : one)))}
              onRemove={() => onChange(periods.filter(({ key }) => key !== period.key))}
            />
          ))}
        </ol>
      )}
      <div className="form-buttons">
        <Button variant="default" onClick={() => add("yearly")}>
          Add weeks of every year
        </Button>
        <Button variant="default" onClick={() => add("once")}>
          Add dates, once
        </Button>
      </div>
    </>
  );
}
