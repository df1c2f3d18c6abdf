"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useEffect, useRef, useState, useTransition } from "react";
import { AppLink } from "../app-link.client.tsx";
import { askServer } from "../ask-server.client.ts";
import { RefusedFields } from "../asking/refused-fields.client.tsx";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { useUnkept } from "../asking/use-unkept.client.ts";
import { ChangeCells } from "../change-cells.tsx";
import { ErrorNote } from "../error-note.tsx";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { CalendarRows } from "./calendar-rows.client.tsx";
import { ClassFields } from "./class-fields.client.tsx";
import { type FigureName, fieldSets } from "./field-sets.ts";
import { FigureFields } from "./figure-fields.client.tsx";
import { ListRows } from "./list-rows.client.tsx";
import { type ListName, listNames } from "./list-sets.ts";
import { saveWorkshop } from "./workshop-actions.ts";
import { blankRow, followFields, sameFields, type WorkshopFields } from "./workshop-fields.ts";
import { nothingKept, type WorkshopOutcome } from "./workshop-outcome.ts";

/**
 * Prices and workshops as a form. What was typed stays until it is saved, also where somebody else saved meanwhile.
 * `after`: the change that the fields were read from; 0: nobody told anything yet.
 */
export function WorkshopDesk(props: {
  readonly fields: WorkshopFields;
  readonly defaults: WorkshopFields["figures"];
  readonly after: number;
  /** The ISO year whose dates stand beside weeks. */
  readonly year: number;
  readonly depots: readonly string[];
  readonly models: readonly string[];
}) {
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const note = useRef<HTMLDivElement>(null);
  const [fields, setFields] = useState(props.fields);
  const [after, setAfter] = useState(props.after);
  // What was kept when the form was last drawn, and what counts as untouched in it: after a save, what was saved.
  const [kept, setKept] = useState(props.fields);
  const [base, setBase] = useState(props.fields);
  const [outcome, setOutcome] = useState<WorkshopOutcome | null>(null);
  const [pending, startTransition] = useTransition();
  useRefusedField(form, outcome);
  // The button that was pressed may be far from where the answer stands.
  useEffect(() => {
    if (outcome !== null && (outcome.problem !== null || outcome.meanwhile !== null)) note.current?.focus();
  }, [outcome]);
  const isUnchanged = sameFields(fields, base);
  useUnkept(!isUnchanged);
  if (!sameFields(kept, props.fields)) {
    const { fields: followed, conflict } = followFields({ typed: fields, told: base, kept: props.fields });
    setKept(props.fields);
    setBase(props.fields);
    setFields(followed);
    if (!conflict) setAfter(props.after);
  }
  const change = (more: Partial<WorkshopFields>) => {
    setFields({ ...fields, ...more });
    if (outcome !== null && (outcome.saved !== null || outcome.isAskedBack)) setOutcome(null);
  };
  const save = () =>
    startTransition(async () => {
      const answer = await askServer(
        () => saveWorkshop(fields, after, outcome?.isAskedBack ?? false),
        (problem) => ({ ...nothingKept, problem }),
      );
      setOutcome(answer);
      setAfter(answer.saved ?? answer.meanwhile?.latest ?? after);
      if (answer.saved !== null) setBase(fields);
      router.refresh();
    });
  const problems = outcome?.problems ?? {};
  const figures = (set: keyof typeof fieldSets) => (
    <FigureFields
      set={fieldSets[set]}
      figures={fields.figures}
      defaults={props.defaults}
      problems={problems}
      onChange={(name: FigureName, value) => change({ figures: { ...fields.figures, [name]: value } })}
    />
  );
  return (
    <form
      ref={form}
      className="house-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <ScriptedFields>
        {(["money", "budget", "plan", "anyClass"] as const).map((set) => (
          <fieldset key={set}>
            <legend>{fieldSets[set].legend}</legend>
            {figures(set)}
          </fieldset>
        ))}
        <fieldset>
          <legend>Single classes of unit</legend>
          <p className="second">The classes that the fleet has. A field that is left empty is as any class.</p>
          <ClassFields
            classes={fields.classes}
            any={fields.figures}
            problems={problems}
            onChange={(unitClass, name, value) =>
              change({
                classes: fields.classes.map((row) => (row.unitClass === unitClass ? { ...row, [name]: value } : row)),
              })
            }
          />
        </fieldset>
        <fieldset>
          <legend>{fieldSets.anyDepot.legend}</legend>
          {figures("anyDepot")}
          <CalendarRows
            periods={fields.periods}
            year={props.year}
            problems={problems}
            onChange={(periods) => change({ periods })}
          />
          {props.depots.length > 0 && (
            <p className="second">
              What each has is told on its own page, below <AppLink href="/depots">Depots</AppLink>.
            </p>
          )}
        </fieldset>
        {listNames.map((list) => (
          <Rows key={list} list={list} fields={fields} problems={problems} onChange={change} />
        ))}
        <Names id="known-depot" names={props.depots} />
        <Names id="known-model" names={props.models} />
        <div ref={note} tabIndex={-1}>
          {outcome?.problem && <ErrorNote happened={outcome.problem} kept="What was kept before is unchanged." />}
          {outcome?.meanwhile && (
            <ErrorNote
              happened={`${outcome.meanwhile.by} changed prices and workshops while you wrote.`}
              kept="Nothing of either is lost: that change stands in the history below, and your entries stand here."
              todo="Fields that you did not touch show what is kept now. Look at the history, then save again, and yours take their place."
            />
          )}
        </div>
        <Asked outcome={outcome} />
        <div className="keep-bar">
          <RefusedFields problems={problems} />
          <div className="form-buttons">
            <Button type="submit" loading={pending} disabled={isUnchanged}>
              {outcome?.isAskedBack ? "Save it all the same" : "Save"}
            </Button>
            <p role="status" className="second">
              {outcome?.saved
                ? "Saved. The next plan and budget reckon with it; the history below can put back what was."
                : isUnchanged
                  ? "Every field says what is in force."
                  : outcome?.isAskedBack
                    ? "Not saved yet: is it meant so?"
                    : "Not saved yet."}
            </p>
          </div>
        </div>
      </ScriptedFields>
    </form>
  );
}

/** One of the lists with its rows. */
function Rows(props: {
  readonly list: ListName;
  readonly fields: WorkshopFields;
  readonly problems: WorkshopOutcome["problems"];
  readonly onChange: (more: Partial<WorkshopFields>) => void;
}) {
  const { list, fields, onChange } = props;
  const rows: readonly { readonly key: number }[] = fields[list];
  // Rows of one list stay rows of it, whichever it is.
  const put = (next: readonly object[]) => onChange({ [list]: next } as Partial<WorkshopFields>);
  return (
    <ListRows
      list={list}
      rows={fields[list]}
      problems={props.problems}
      onCell={(key, name, value) => put(rows.map((row) => (row.key === key ? { ...row, [name]: value } : row)))}
      onAdd={() => put([...rows, blankRow(list, rows)])}
      onRemove={(key) => put(rows.filter((row) => row.key !== key))}
    />
  );
}

/** What was changed, or is to be, and what of it may hardly be meant. */
function Asked({ outcome }: { readonly outcome: WorkshopOutcome | null }) {
  if (outcome === null || outcome.cautions.length + outcome.changes.length === 0) return null;
  const { cautions, changes } = outcome;
  const values = changes.length === 1 ? "One value" : `${changes.length} values`;
  return (
    <div role="status">
      {changes.length > 0 && (
        <>
          <p>
            {values} {outcome.saved === null ? "would change" : "changed"}:
          </p>
          <ChangeCells changes={changes} />
        </>
      )}
      {cautions.length > 0 && (
        <ul>
          {cautions.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </div>
  );
}

const Names = ({ id, names }: { readonly id: string; readonly names: readonly string[] }) => (
  <datalist id={id}>
    {names.map((name) => (
      <option key={name} value={name} />
    ))}
  </datalist>
);
