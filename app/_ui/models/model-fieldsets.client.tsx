"use client";

import { Checkbox, NativeSelect, TextInput } from "@mantine/core";
import type { ReactNode } from "react";
import type { FieldProblems } from "../asking/field-problems.ts";
import { figureOf } from "../figures.ts";
import type { ModelDraft } from "./model-draft.ts";
import {
  coolingWords,
  type FieldName,
  layoutWords,
  modelFields,
  type PartName,
  spreadRuleWords,
  workFields,
} from "./model-fields.ts";
import { SketchEditor } from "./sketch-editor.client.tsx";

const optionsOf = (words: Readonly<Record<string, string>>) =>
  Object.entries(words).map(([value, label]) => ({ value, label }));

/** The fields of an engine model by subject, each with its reason where it is not taken. */
export function ModelFieldsets(props: {
  readonly draft: ModelDraft;
  readonly problems: FieldProblems;
  /** The id of a model that is known stays. */
  readonly isNew: boolean;
  readonly onChange: (draft: ModelDraft) => void;
}) {
  const { draft, problems, isNew, onChange } = props;
  const change = (more: Partial<ModelDraft>) => onChange({ ...draft, ...more });
  const field = (name: FieldName) => {
    const { label, unit, help, empty } = modelFields[name];
    return (
      <TextInput
        key={name}
        name={name}
        label={unit === undefined ? label : `${label}, ${unit}`}
        {...(help === undefined ? {} : { description: help })}
        {...(empty === undefined ? {} : { placeholder: empty })}
        inputMode={name === "id" || name === "name" || name === "fuel" ? "text" : "decimal"}
        value={draft.fields[name]}
        readOnly={name === "id" && !isNew}
        error={problems[name]}
        autoComplete="off"
        onChange={(event) => change({ fields: { ...draft.fields, [name]: event.currentTarget.value } })}
      />
    );
  };
  const row = (...names: readonly FieldName[]) => <div className="field-row">{names.map(field)}</div>;
  const part = (name: PartName, legend: string, says: string, more: ReactNode) => (
    <fieldset>
      <legend>{legend}</legend>
      <p className="second">{says}</p>
      <Checkbox
        label={partLabels[name]}
        checked={draft.parts[name]}
        onChange={(event) => change({ parts: { ...draft.parts, [name]: event.currentTarget.checked } })}
      />
      {draft.parts[name] && more}
    </fieldset>
  );
  const cylinders = figureOf(draft.fields.cylinders) ?? 0;
  return (
    <>
      <fieldset>
        <legend>What it is</legend>
        {row("id", "name", "fuel")}
        <NativeSelect
          label="Cooled by"
          description="An air-cooled engine has no coolant: no test of it is asked for, and no leak into it is looked for."
          value={draft.cooling}
          data={optionsOf(coolingWords)}
          onChange={(event) => change({ cooling: event.currentTarget.value as ModelDraft["cooling"] })}
        />
        <Checkbox
          label="In aircraft"
          description="Its pages say that approved data and a licensed engineer decide."
          checked={draft.aircraft}
          onChange={(event) => change({ aircraft: event.currentTarget.checked })}
        />
        <Checkbox
          label="Wet test allowed on this diesel"
          description="Only where its manual says so: oil can lock a diesel. Other fuels need no permission."
          checked={draft.wetTest}
          onChange={(event) => change({ wetTest: event.currentTarget.checked })}
        />
      </fieldset>
      <fieldset>
        <legend>How its cylinders stand</legend>
        <p className="second">
          Press the gap between two cylinders that share a gasket bridge. Separate heads share none.
        </p>
        <div className="field-row">
          {field("cylinders")}
          <NativeSelect
            label="Layout"
            description="From above, front first."
            value={draft.layout}
            data={optionsOf(layoutWords)}
            onChange={(event) => change({ layout: event.currentTarget.value as ModelDraft["layout"] })}
          />
        </div>
        {Number.isInteger(cylinders) && cylinders >= 1 && cylinders <= 16 && (
          <SketchEditor
            layout={draft.layout}
            cylinders={cylinders}
            ties={draft.neighbours}
            onChange={(neighbours) => change({ neighbours })}
          />
        )}
      </fieldset>
      {problems["judged"] !== undefined && (
        <p className="field-problem" role="alert">
          {problems["judged"]}
        </p>
      )}
      {part(
        "leakDown",
        "Leak-down limits",
        "Of all leakage, on the model’s usual tester; other testers are converted to it.",
        <>
          {row("leakDown.watchPercent", "leakDown.planPercent", "leakDown.limitPercent")}
          {row("leakDown.orificeMm", "leakDown.supplyKpa")}
        </>,
      )}
      {draft.parts.leakDown &&
        part(
          "leakDown.valves",
          "Tighter limits for valves",
          "Hold while the fault is more likely at the top end and air was heard at inlet, exhaust or coolant.",
          row("leakDown.valves.watchPercent", "leakDown.valves.planPercent", "leakDown.valves.limitPercent"),
        )}
      {part(
        "compression",
        "Compression limits",
        "Gauge pressures, at sea level. The spread is how far a cylinder may lie below the others.",
        <>
          {row("compression.newKpa", "compression.minimumKpa", "compression.referenceRpm")}
          <div className="field-row">
            <NativeSelect
              label="Rule on spread"
              description="How far one may lie below."
              value={draft.spreadRule}
              data={optionsOf(spreadRuleWords)}
              onChange={(event) => change({ spreadRule: event.currentTarget.value as ModelDraft["spreadRule"] })}
            />
            {field("compression.spreadPercent")}
            {field("compression.spreadKpa")}
          </div>
        </>,
      )}
      <fieldset>
        <legend>Test interval</legend>
        <p className="second">Whichever ends first. Left empty, the fleet’s interval of the Settings holds.</p>
        {row("testInterval.meter", "testInterval.days")}
      </fieldset>
      {part(
        "repairs.topEnd",
        "Cost of a top-end repair",
        "Head, valves, seats, gasket, cam drive.",
        row(...workFields("topEnd"), "repairs.topEnd.unplannedFactor"),
      )}
      {part(
        "repairs.bottomEnd",
        "Cost of a bottom-end repair",
        "Rings, pistons, bores, and bearings when it is open.",
        row(...workFields("bottomEnd"), "repairs.bottomEnd.unplannedFactor"),
      )}
      {part("repairs.both", "Cost of both at once", "Left out, it is made of the two.", row(...workFields("both")))}
      {part(
        "repairs.exchange",
        "Cost of another engine",
        "Put in from the fleet’s spare engines; its price or its building as parts.",
        row(...workFields("exchange")),
      )}
    </>
  );
}

const partLabels: Readonly<Record<PartName, string>> = {
  leakDown: "Judged on leak-down",
  "leakDown.valves": "Has tighter limits for valves",
  compression: "Judged on compression",
  "repairs.topEnd": "Top-end cost known",
  "repairs.bottomEnd": "Bottom-end cost known",
  "repairs.both": "Cost of both at once known",
  "repairs.exchange": "Cost of another engine known",
};
