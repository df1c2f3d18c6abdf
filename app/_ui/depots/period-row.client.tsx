"use client";

import { Button, NativeSelect, TextInput } from "@mantine/core";
import { figureOf } from "../figures.ts";
import { useFormats } from "../formats.client.tsx";
import type { PeriodFields } from "./depot-form.ts";
import { weeksWords } from "./depot-words.ts";

const kinds = [
  { value: "peak", label: "Peak" },
  { value: "closed", label: "Closed" },
];

/** One period of the form. `problem`: why a field of it is not taken; of `""`, why the period as a whole is not. */
export function PeriodRow(props: {
  readonly number: number;
  readonly period: PeriodFields;
  readonly year: number;
  readonly problem: (name: string) => string | undefined;
  readonly onChange: (more: Partial<PeriodFields>) => void;
  readonly onRemove: () => void;
}) {
  const f = useFormats();
  const { number, period, problem, onChange } = props;
  const text = (name: "firstWeek" | "lastWeek" | "firstDate" | "lastDate" | "remarks", label: string) => (
    <TextInput
      label={label}
      type={name.endsWith("Date") ? "date" : "text"}
      inputMode={name.endsWith("Week") ? "numeric" : undefined}
      value={period[name]}
      onChange={(event) => onChange({ [name]: event.currentTarget.value })}
      error={problem(name)}
      className={`period-${name}`}
    />
  );
  const [firstWeek, lastWeek] = [figureOf(period.firstWeek), figureOf(period.lastWeek)];
  const whole = problem("");
  return (
    <li>
      <fieldset className="period-row">
        <legend>Period {number}</legend>
        <NativeSelect
          label="Kind"
          data={kinds}
          value={period.kind}
          onChange={(event) => onChange({ kind: event.currentTarget.value === "peak" ? "peak" : "closed" })}
        />
        {period.repeat === "yearly" ? (
          <>
            {text("firstWeek", "From week")}
            {text("lastWeek", "to week")}
          </>
        ) : (
          <>
            {text("firstDate", "From")}
            {text("lastDate", "to, that day included")}
          </>
        )}
        {text("remarks", "Remarks")}
        <Button
          variant="default"
          className="period-remove"
          onClick={props.onRemove}
          aria-label={`Remove period ${number}`}
        >
          Remove
        </Button>
        {period.repeat === "yearly" && isWeek(firstWeek) && isWeek(lastWeek) && (
          <p className="second small period-says">{weeksWords(f, { firstWeek, lastWeek }, props.year)}</p>
        )}
        {whole !== undefined && <p className="field-problem period-says">{whole}</p>}
      </fieldset>
    </li>
  );
}

const isWeek = (week: number | null): week is number =>
  Number.isInteger(week) && week !== null && week >= 1 && week <= 53;
