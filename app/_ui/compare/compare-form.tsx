import { Button, Checkbox, NativeSelect, TextInput } from "@mantine/core";
import { type ComparedModel, figures, type ModelComparison, origins } from "../../../lib/schema/comparison.ts";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { judgedMeasures } from "../../../lib/schema/words.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { type CompareView, kindOf, mostUnits } from "./address.ts";
import { figureNames, measureNames, originNames } from "./compare-words.ts";

/** Model, test, what is counted from, and the units drawn: a plain GET form, so that it works without script. */
export function CompareForm(props: {
  readonly models: readonly ComparedModel[];
  readonly of: ModelComparison;
  readonly view: CompareView;
  /** Names to choose from; empty where there are too many. */
  readonly units: readonly string[];
}) {
  const { models, of, view } = props;
  const kinds = new Map(models.map((model) => [kindOf(model), model]));
  const isTwice = (model: ComparedModel) =>
    [...kinds.values()].some((m) => m.engineModel === model.engineModel && m.meterUnit !== model.meterUnit);
  return (
    <form action="/compare" method="get" className="compare-form no-print" key={JSON.stringify(view)}>
      <NativeSelect
        name="model"
        label="Engine model"
        defaultValue={kindOf(of)}
        data={[...kinds].map(([value, model]) => ({
          value,
          label: isTwice(model) ? `${model.modelName}, ${model.meterUnit}` : model.modelName,
        }))}
      />
      <NativeSelect
        name="measure"
        label="Test"
        defaultValue={of.measure}
        data={judgedMeasures.map((value) => ({ value, label: measureNames[value] }))}
      />
      <NativeSelect
        name="since"
        label="Meter counted"
        defaultValue={view.since}
        data={origins.map((value) => ({ value, label: originNames[value] }))}
      />
      <NativeSelect
        name="of"
        label="Of each engine"
        defaultValue={view.of}
        data={figures.map((value) => ({ value, label: figureNames[value] }))}
      />
      <TextInput
        name="unit"
        label="Add a unit"
        placeholder="Unit number"
        list="compare-units"
        maxLength={longestName}
        disabled={view.units.length >= mostUnits}
        autoComplete="off"
      />
      <datalist id="compare-units">
        {props.units.map((unit) => (
          <option key={unit} value={unit} />
        ))}
      </datalist>
      <Button type="submit" variant="default">
        Show
      </Button>
      {view.units.length > 0 && (
        <fieldset className="compare-chosen">
          <legend>Units drawn</legend>
          {view.units.map((unit) => (
            <Checkbox key={unit} name="unit" value={unit} label={unit} defaultChecked />
          ))}
        </fieldset>
      )}
      {view.of === "each" && of.cylinders > 1 && (
        <fieldset className="compare-chosen">
          <legend>Cylinders drawn</legend>
          {Array.from({ length: of.cylinders }, (_, i) => i + 1).map((cylinder) => (
            <Checkbox
              key={cylinder}
              name="cylinder"
              value={cylinder}
              label={sentenceWords(`cylinder ${cylinder}`)}
              defaultChecked={view.cylinders.length === 0 || view.cylinders.includes(cylinder)}
            />
          ))}
        </fieldset>
      )}
    </form>
  );
}
