"use client";

import { Button, Checkbox, TextInput } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useEffect, useRef, useState, useTransition } from "react";
import { AppLink } from "../app-link.client.tsx";
import { askServer } from "../ask-server.client.ts";
import { RefusedFields } from "../asking/refused-fields.client.tsx";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { useFormats } from "../formats.client.tsx";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { saveDepot } from "./depot-actions.ts";
import { blankPeriod, type depotFigures, followFields, sameFields } from "./depot-fields.ts";
import type { DepotFields, PeriodFields } from "./depot-form.ts";
import { type DepotOutcome, nothingKept } from "./depot-outcome.ts";
import { PeriodRow } from "./period-row.client.tsx";

/**
 * What a depot has and when it works. What was typed stays until it is saved, also where somebody else saved meanwhile.
 * `after`: the change that the fields were read from.
 */
export function DepotForm(props: {
  readonly depot: string;
  readonly fields: DepotFields;
  readonly after: number | null;
  /** The ISO year whose dates stand beside weeks. */
  readonly year: number;
}) {
  const f = useFormats();
  const router = useRouter();
  const [fields, setFields] = useState(props.fields);
  const [after, setAfter] = useState(props.after);
  // What was kept when the form was last drawn, and what counts as untouched in it: after a save, what was saved.
  const [kept, setKept] = useState(props.fields);
  const [base, setBase] = useState(props.fields);
  const [outcome, setOutcome] = useState<DepotOutcome | null>(null);
  const [pending, startTransition] = useTransition();
  const form = useRef<HTMLFormElement>(null);
  // Where a period stood that was removed: what had the focus went with it.
  const [removed, setRemoved] = useState<number | null>(null);
  useRefusedField(form, outcome);
  useEffect(() => {
    if (removed === null) return;
    const buttons = form.current?.querySelectorAll<HTMLElement>(".period-remove, .period-add");
    buttons?.[Math.min(removed, buttons.length - 1)]?.focus();
    setRemoved(null);
  }, [removed]);

  // What is kept changed by another way (put back, somebody else): parts that nobody touched here follow it. Where a part
  // that was touched changed as well, the form stays one of the version before, so that saving tells of it.
  if (!sameFields(kept, props.fields)) {
    const { fields: followed, conflict } = followFields({ typed: fields, told: base, kept: props.fields });
    if (!sameFields(props.fields, fields) && outcome !== null && outcome.saved !== null) setOutcome(null);
    setKept(props.fields);
    setBase(props.fields);
    setFields(followed);
    if (!conflict) setAfter(props.after);
  }

  const change = (more: Partial<DepotFields>) => {
    setFields({ ...fields, ...more });
    if (outcome !== null && outcome.saved !== null) setOutcome(null);
  };
  const setPeriod = (key: number, more: Partial<PeriodFields>) =>
    change({ periods: fields.periods.map((period) => (period.key === key ? { ...period, ...more } : period)) });
  const add = (repeat: PeriodFields["repeat"]) => {
    const key = 1 + Math.max(-1, ...fields.periods.map((period) => period.key));
    change({ periods: [...fields.periods, blankPeriod(key, repeat)] });
  };
  const save = () =>
    startTransition(async () => {
      const answer = await askServer(
        () => saveDepot(props.depot, fields, after),
        (problem) => ({ ...nothingKept, problem }),
      );
      setOutcome(answer);
      setAfter(answer.saved ?? answer.meanwhile?.latest ?? after);
      if (answer.saved !== null) setBase(fields);
      router.refresh();
    });
  // Of what was saved, not of what was typed since.
  const inForce = base.periods.length;
  const problem = (name: string) => outcome?.problems[name];
  const figure = (name: (typeof depotFigures)[number], label: string, help: string) => (
    <TextInput
      label={label}
      description={help}
      inputWrapperOrder={["label", "input", "description", "error"]}
      inputMode="decimal"
      autoComplete="off"
      value={fields[name]}
      onChange={(event) => change({ [name]: event.currentTarget.value })}
      error={problem(name)}
    />
  );

  return (
    <form
      ref={form}
      className="house-form"
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <ScriptedFields>
        <fieldset>
          <legend>To work with</legend>
          <p className="second">
            For the plan and the budget. What is left empty is as at any depot: see{" "}
            <AppLink href="/settings/workshop">Prices and workshops</AppLink>.
          </p>
          <div className="field-row">
            {figure("bays", "Bays", "Places where an engine can be opened.")}
            {figure("technicians", "Technicians", "People who do so.")}
            {figure(
              "productiveHoursPerDay",
              "Hours each a day",
              "Of engine work; 5.5 to 6.5 is common practice, no source.",
            )}
            {figure("daysPerWeek", "Days a week", "Days on which the workshop works.")}
            {figure(
              "builders",
              "Bottom-end builders",
              "Technicians who can build bottom ends; one or two are common practice, no source.",
            )}
            {figure("labourRate", "Labour rate, an hour", "Where it is not the fleet’s.")}
          </div>
        </fieldset>
        <fieldset>
          <legend>Peak and closed periods</legend>
          <p className="second">
            Peak: its units are needed most, so repairs are better done before. Closed: no work is done. Weeks are those
            of ISO 8601, Monday to Sunday, and come back every year; the last may lie in the next year, as in 46 to 8.
          </p>
          {fields.periods.length === 0 && <p>None: it works all year alike.</p>}
          {fields.periods.length > 0 && (
            <ol className="form-list">
              {fields.periods.map((period, i) => (
                <PeriodRow
                  key={period.key}
                  number={i + 1}
                  period={period}
                  year={props.year}
                  problem={(name) => problem(name === "" ? `periods.${i}` : `periods.${i}.${name}`)}
                  onChange={(more) => setPeriod(period.key, more)}
                  onRemove={() => {
                    change({ periods: fields.periods.filter(({ key }) => key !== period.key) });
                    setRemoved(i);
                  }}
                />
              ))}
            </ol>
          )}
          {problem("periods") !== undefined && <p className="field-problem">{problem("periods")}</p>}
          <div className="form-buttons">
            <Button variant="default" className="period-add" onClick={() => add("yearly")}>
              Add weeks of every year
            </Button>
            <Button variant="default" onClick={() => add("once")}>
              Add dates, once
            </Button>
          </div>
        </fieldset>
        <Checkbox
          label="Retired: no longer used"
          description="It is listed apart. Its units, tests and weeks stay, and it can be taken back."
          checked={fields.retired}
          onChange={(event) => change({ retired: event.currentTarget.checked })}
        />
        {outcome?.problem && <ErrorNote happened={outcome.problem} kept="What was kept before is unchanged." />}
        <RefusedFields problems={outcome?.problems ?? {}} />
        {outcome?.meanwhile && (
          <ErrorNote
            happened={`${outcome.meanwhile.by} saved this depot while you wrote.`}
            kept="Nothing of either is lost: that change stands in the history below, and your entries stand here."
            todo="Fields that you did not touch show what is kept now. Look at the history, then save again, and yours take their place."
          />
        )}
        <div className="form-buttons">
          <Button type="submit" loading={pending}>
            Save
          </Button>
          <p role="status" className="second">
            {outcome?.saved
              ? `Saved. ${f.number(inForce)} ${inForce === 1 ? "period" : "periods"} in force; the history below can put back what was.`
              : ""}
          </p>
        </div>
      </ScriptedFields>
    </form>
  );
}
