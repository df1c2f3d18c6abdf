import { NativeSelect } from "@mantine/core";
import { formatsOf } from "../../../lib/viewing/formats.ts";
import {
  dateChoices,
  distanceChoices,
  numberChoices,
  type Preferences,
  preferencesText,
  pressureChoices,
  rateChoices,
} from "../../../lib/viewing/preferences.ts";
import { FormatsKeeper } from "./formats-keeper.client.tsx";

const exampleDate = "2026-11-09";
const exampleNumber = 1_010.5;

/** The viewer's units of measure, dates and numbers; kept in this browser, for all pages. */
export function FormatsForm({ preferences }: { readonly preferences: Preferences }) {
  const having = (change: Partial<Preferences>) => formatsOf({ ...preferences, ...change });
  return (
    <FormatsKeeper>
      {/* Kept choices come back as the fields' own values, so they are made anew when they change. */}
      <fieldset key={preferencesText(preferences)}>
        <legend>Units and formats</legend>
        <div className="formats-fields">
          <NativeSelect
            name="pressure"
            label="Pressure"
            defaultValue={preferences.pressure}
            data={[...pressureChoices]}
          />
          <NativeSelect
            name="distance"
            label="Distance"
            defaultValue={preferences.distance}
            data={distanceChoices.map((value) => ({ value, label: value === "as-recorded" ? "as recorded" : value }))}
          />
          <NativeSelect
            name="ratePer"
            label="Rates over distance"
            defaultValue={String(preferences.ratePer)}
            data={rateChoices.map((value) => ({ value: String(value), label: `per ${having({}).number(value)}` }))}
          />
          <NativeSelect
            name="dates"
            label="Dates"
            defaultValue={preferences.dates}
            data={dateChoices.map((dates) => ({ value: dates, label: having({ dates }).date(exampleDate) }))}
          />
          <NativeSelect
            name="numbers"
            label="Numbers"
            defaultValue={preferences.numbers}
            data={numberChoices.map((numbers) => ({
              value: numbers,
              label: having({ numbers }).number(exampleNumber, 1),
            }))}
          />
        </div>
      </fieldset>
    </FormatsKeeper>
  );
}
