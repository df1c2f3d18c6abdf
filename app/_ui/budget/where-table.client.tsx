"use client";

import { useState } from "react";
import { AppLink } from "../app-link.client.tsx";
import { useFormats } from "../formats.client.tsx";
import { unitAddress } from "../unit-address.ts";
import { forWords } from "./budget-words.ts";
import { isRare, rareMark, rareNote } from "./rare-money.ts";
import type { Where, WhereGroup, WhereLine, WhereUnit } from "./where.ts";
import { wholeMoney } from "./whole-money.ts";

const columns = ["spent", "expected", "p80", "planned", "unplanned", "frozen"] as const;
const heads = {
  spent: "Spent",
  expected: "To come, expected",
  p80: "To come, P80",
  planned: "Planned",
  unplanned: "Unplanned",
  frozen: "Frozen, year expected",
} as const;

/** Groups that open to their units. All are closed at first; on paper they stay as they are. */
export function WhereTable(props: { readonly head: string; readonly currency: string; readonly where: Where }) {
  const { head, currency, where } = props;
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set());
  const shown = columns.filter((column) => column !== "frozen" || where.whole.frozen !== null);
  const toggle = (name: string) =>
    setOpen((before) => {
      const next = new Set(before);
      if (!next.delete(name)) next.add(name);
      return next;
    });
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard.
    <section className="scroll-box" aria-label="Where it goes, in figures" tabIndex={0}>
      <table className="data-table budget-table where-table">
        <thead>
          <tr>
            <th scope="col">{head}</th>
            {shown.map((column) => (
              <th key={column} scope="col" className="number">
                {heads[column]}
              </th>
            ))}
          </tr>
        </thead>
        {where.groups.map((group) => (
          <Group key={group.name} group={group} {...{ isOpen: open.has(group.name), toggle, shown, currency }} />
        ))}
        {where.untested.units.length > 0 && (
          <Group
            group={where.untested}
            note=", among the above: by what their models foresee; book a baseline test"
            {...{ isOpen: open.has(where.untested.name), toggle, shown, currency }}
          />
        )}
        <tbody>
          <tr data-total="true">
            <th scope="row">{where.whole.name}, simulated together</th>
            <Cells line={where.whole} columns={shown} currency={currency} />
          </tr>
        </tbody>
      </table>
      {where.groups.some(({ units }) => units.some(({ scopes }) => scopes.some(({ isBooked }) => isBooked))) && (
        <p className="sheet-note">
          A repair that is booked is in every draw as booked, unless the unit fails before, also where the plan is less
          than sure of its class: so much is ordered, and money is held for all of it. The other class comes on top in
          those draws in which it is needed.
        </p>
      )}
      {[...where.groups, where.untested, where.whole].some(isRare) && <p className="sheet-note">{rareNote}</p>}
    </section>
  );
}

/** Of a unit that the plan has booked, or of which the class is in doubt, what its money is for is told. */
const isToldApart = ({ scopes }: WhereUnit): boolean => scopes.length > 1 || scopes.some(({ isBooked }) => isBooked);

/** A line that opens to its units. */
function Group(props: {
  readonly group: WhereGroup;
  /** What is said beside its name. */
  readonly note?: string;
  readonly isOpen: boolean;
  readonly toggle: (name: string) => void;
  readonly shown: readonly (typeof columns)[number][];
  readonly currency: string;
}) {
  const { group, note, isOpen, toggle, shown, currency } = props;
  const f = useFormats();
  return (
    <tbody>
      <tr>
        <th scope="row">
          <button type="button" className="where-open" aria-expanded={isOpen} onClick={() => toggle(group.name)}>
            {group.name}
          </button>
          {note !== undefined && <span className="second small">{note}</span>}
        </th>
        <Cells line={group} columns={shown} currency={currency} />
      </tr>
      {isOpen &&
        group.units.map((unit) => (
          <tr key={unit.name} data-unit="true">
            <th scope="row">
              <AppLink href={unitAddress(unit.name)}>{unit.name}</AppLink>
              {isToldApart(unit) && (
                <>
                  <br />
                  <span className="second small">{forWords(f, unit, currency)}</span>
                </>
              )}
            </th>
            <Cells line={unit} columns={shown} currency={currency} />
          </tr>
        ))}
    </tbody>
  );
}

function Cells(props: {
  readonly line: WhereLine;
  readonly columns: readonly (typeof columns)[number][];
  readonly currency: string;
}) {
  const f = useFormats();
  return props.columns.map((column) => {
    const amount = props.line[column];
    return (
      <td key={column} className="number">
        {amount === null || (column === "spent" && amount === 0) ? "–" : wholeMoney(f, amount, props.currency)}
        {column === "p80" && isRare(props.line) && (
          <>
            <br />
            <span className="second small">{rareMark}</span>
          </>
        )}
      </td>
    );
  });
}
