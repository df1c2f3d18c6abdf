"use client";

import { Button, TextInput } from "@mantine/core";
import type { ReactNode } from "react";
import { sentenceWords } from "../../../lib/wording.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import type { FieldName } from "./settings-fields.ts";
import type { SettingsFields } from "./settings-form.ts";

interface FieldSet {
  readonly legend: string;
  readonly says: string;
  readonly fields: readonly {
    readonly name: FieldName;
    readonly label: string;
    readonly help: string;
    /** What stands in the field's place where it is empty. */
    readonly empty?: string;
    readonly type?: "date";
    readonly unit?: string;
  }[];
}

const fieldSets: readonly FieldSet[] = [
  {
    legend: "The fleet",
    says: "Name and time zone move no band; another date may.",
    fields: [
      { name: "fleetName", label: "Name", help: "Stands in the header where there is room.", empty: "none" },
      { name: "timeZone", label: "Time zone", help: "Where “today” is told. Type to search." },
      {
        name: "asOf",
        label: "As-of date",
        help: "Empty: today. A fixed date is for looking back; later tests do not count then.",
        empty: "today",
        type: "date",
      },
    ],
  },
  {
    legend: "When a unit is to plan or to watch",
    says: "Beside the levels that its engine model sets, a unit is judged by its chance to meet a limit within the lead time.",
    fields: [
      {
        name: "leadTimeMonths",
        label: "Planning lead time",
        help: "How far ahead repairs are booked.",
        unit: "months",
      },
      { name: "watchPercent", label: "Chance for watch", help: "From this chance on it is watched.", unit: "%" },
      { name: "planPercent", label: "Chance for plan", help: "From this chance on a repair is planned.", unit: "%" },
      {
        name: "horizonYears",
        label: "Horizon",
        help: "How far forecasts are told; what may come later is told as beyond it.",
        unit: "years",
      },
      {
        name: "togetherMonths",
        label: "Both repairs together within",
        help: "Where the other class of repair is likelier than not to follow within this span, both are advised together. 12 to 18 months is common practice, no source; it moves no band.",
        unit: "months",
      },
    ],
  },
  {
    legend: "Test intervals",
    says: "For engine models that state none of their own; whichever ends first. Yearly, or every 500 to 1,000 h or 30,000 to 60,000 km, is common practice, no source; on watch, half of that.",
    fields: [
      { name: "testIntervalDays", label: "By the calendar", help: "Days between tests.", empty: "none", unit: "days" },
      {
        name: "testIntervalKm",
        label: "By distance",
        help: "For meters that count km, or miles, turned into these.",
        empty: "none",
        unit: "km",
      },
      { name: "testIntervalHours", label: "By hours", help: "For meters that count hours.", empty: "none", unit: "h" },
    ],
  },
  {
    legend: "Files that come in",
    says: "Moves no band. All files of one import may have twice as much together.",
    fields: [
      {
        name: "uploadLimitMb",
        label: "Largest file",
        help: "A larger one is refused on the Import page while it comes in. Of a workbook 64 MB are read at most.",
        unit: "MB",
      },
    ],
  },
  {
    legend: "What tests take",
    says: "A technician’s time, for the hours of a test round. The defaults are common practice, no source; they move no band.",
    fields: [
      {
        name: "testReadyHours",
        label: "Getting an engine ready",
        help: "Warming it up, plugs out and in again, once for all its tests.",
        unit: "hours",
      },
      {
        name: "testCylinderMinutes",
        label: "Each cylinder",
        help: "For each kind of test, leak-down or compression.",
        unit: "minutes",
      },
    ],
  },
];

/** The fields of the settings by subject, each with its reason where it is not taken, and the button that asks. */
export function SettingsFieldsets(props: {
  readonly fields: SettingsFields;
  readonly inForce: SettingsFields;
  readonly defaults: SettingsFields;
  readonly timeZones: readonly string[];
  readonly problems: FieldProblems;
  readonly busy: boolean;
  readonly unchanged: boolean;
  readonly onChange: (more: Partial<SettingsFields>) => void;
}) {
  const { fields, inForce, defaults, problems } = props;
  const standing = (name: FieldName, empty: string): ReactNode => {
    const told = (value: string) => (value === "" ? empty : value);
    if (fields[name].trim() !== inForce[name]) return `In force: ${told(inForce[name])}.`;
    if (inForce[name] !== defaults[name]) return `By default ${told(defaults[name])}.`;
    return inForce[name] === "" ? `${sentenceWords(empty)}, as by default.` : "As by default.";
  };
  return (
    <>
      {fieldSets.map(({ legend, says, fields: ofSet }) => (
        <fieldset key={legend}>
          <legend>{legend}</legend>
          <p className="second">{says}</p>
          <div className="field-row">
            {ofSet.map(({ name, label, help, empty = "", type, unit }) => (
              <TextInput
                key={name}
                label={unit === undefined ? label : `${label}, ${unit}`}
                description={
                  <>
                    {help} {standing(name, empty)}
                  </>
                }
                inputWrapperOrder={["label", "input", "description", "error"]}
                {...(name === "timeZone" ? { list: "time-zones" } : {})}
                {...(type === undefined ? {} : { type })}
                {...(unit === undefined ? {} : { inputMode: "decimal" as const })}
                value={fields[name]}
                onChange={(event) => props.onChange({ [name]: event.currentTarget.value })}
                error={problems[name]}
              />
            ))}
          </div>
        </fieldset>
      ))}
      <datalist id="time-zones">
        {props.timeZones.map((zone) => (
          <option key={zone} value={zone} />
        ))}
      </datalist>
      <div className="form-buttons">
        <Button type="submit" loading={props.busy} disabled={props.unchanged}>
          See what it changes
        </Button>
        <p className="second">
          {props.unchanged
            ? "Every field says what is in force."
            : "Nothing is kept before you have seen which units would change."}
        </p>
      </div>
    </>
  );
}
