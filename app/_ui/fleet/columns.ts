import type { FleetQuery } from "../../../lib/schema/report.ts";

interface Column {
  /** What stands above it. */
  readonly head: string;
  /** What the choice of columns calls it; the head where nothing else is said. */
  readonly title?: string;
  readonly sort?: FleetQuery["sort"];
  /** Pixels, with the space to its right: with much room, and with little. */
  readonly width: readonly [wide: number, narrow: number];
  /** Where there is little room the highest goes first. */
  readonly leaves: number;
  /** Shown to whoever chose nothing. */
  readonly usual: boolean;
}

/** The columns between the unit and the axis, which always stay. Their order is the table's. */
const fleetColumns = {
  band: { head: "Band", sort: "band", width: [112, 108], leaves: 1, usual: true },
  depot: { head: "Depot", sort: "depot", width: [104, 96], leaves: 8, usual: false },
  model: { head: "Engine model", sort: "model", width: [160, 140], leaves: 9, usual: false },
  class: { head: "Class", sort: "class", width: [120, 104], leaves: 14, usual: false },
  status: { head: "Status", width: [92, 86], leaves: 15, usual: false },
  serial: { head: "Engine serial", width: [112, 104], leaves: 13, usual: false },
  engine: { head: "Engine", title: "Engine, cylinder by cylinder", width: [80, 80], leaves: 10, usual: true },
  place: { head: "Weakest place, and why", width: [268, 226], leaves: 2, usual: true },
  "last-test": { head: "Last test", sort: "last-test", width: [76, 76], leaves: 4, usual: true },
  "next-test": {
    head: "Next test",
    title: "Next test due",
    sort: "next-test",
    width: [84, 80],
    leaves: 5,
    usual: false,
  },
  meter: { head: "Meter", title: "Meter reading", width: [96, 92], leaves: 12, usual: false },
  use: { head: "Use a week", sort: "use", width: [86, 84], leaves: 11, usual: true },
  "top-chance": {
    head: "Top in a year",
    title: "Chance of a top-end repair within a year",
    sort: "top-chance",
    width: [98, 96],
    leaves: 6,
    usual: false,
  },
  "bottom-chance": {
    head: "Bottom in a year",
    title: "Chance of a bottom-end repair within a year",
    sort: "bottom-chance",
    width: [118, 116],
    leaves: 7,
    usual: false,
  },
  likely: { head: "Repair likely", sort: "due", width: [162, 150], leaves: 3, usual: true },
} as const satisfies Record<string, Column>;

export type ColumnId = keyof typeof fleetColumns;

/** In the table's order. */
export const columnIds = Object.keys(fleetColumns) as readonly ColumnId[];

export const usualColumns: readonly ColumnId[] = columnIds.filter((id) => fleetColumns[id].usual);

/** Whether these are the columns of whoever chose nothing; in any order. */
export const areUsual = (columns: readonly ColumnId[]): boolean =>
  columns.length === usualColumns.length && usualColumns.every((id) => columns.includes(id));

export const columnOf = (id: ColumnId): Column => fleetColumns[id];

/** Widths with much room and with little: of the unit's column, and of the axis at the least. */
const unitWidth = [146, 130] as const;
const axisWidth = [380, 300] as const;

/** What needs no name in a block; the others are led by their head. */
const speaking: readonly ColumnId[] = ["band", "engine", "place", "likely"];

/**
 * The style of the columns shown. Widths follow the box around the table, and before its axis gets narrow columns leave,
 * in an order of their own; not where the rows stand as blocks. Figures of this file alone enter it.
 */
export function columnStyle(shown: readonly ColumnId[]): string {
  const widths = (room: 0 | 1) =>
    [["unit", unitWidth[room]] as const, ...shown.map((id) => [id, fleetColumns[id].width[room]] as const)]
      .map(([id, width]) => `.fleet-table .col-${id}{width:${width}px}`)
      .join("");
  const sum = (room: 0 | 1) =>
    unitWidth[room] + axisWidth[room] + shown.reduce((all, id) => all + fleetColumns[id].width[room], 0);
  const rules = [
    widths(1),
    `@container fleet-rows (min-width: ${sum(0)}px){${widths(0)}}`,
    ...leavingBelow(shown).map(
      ([id, width]) => `@container fleet-rows (max-width: ${width - 0.02}px){.fleet-table .col-${id}{display:none}}`,
    ),
  ];
  // Said once: to a screen reader the head of the column says it.
  const labels = shown
    .filter((id) => !speaking.includes(id))
    .map(
      (id) =>
        `.fleet-table td.col-${id}::before{content:"${fleetColumns[id].head}";content:"${fleetColumns[id].head}"/""}`,
    );
  return [
    `@media print, (min-width: 1080px){${rules.join("\n")}}`,
    `@media screen and (max-width: 1079.98px){${labels.join("")}}`,
  ].join("\n");
}

/** The width of the box below which each column leaves. */
export function leavingBelow(shown: readonly ColumnId[]): readonly (readonly [id: ColumnId, width: number])[] {
  let room = unitWidth[1] + axisWidth[1];
  return [...shown]
    .sort((a, b) => fleetColumns[a].leaves - fleetColumns[b].leaves)
    .map((id) => {
      room += fleetColumns[id].width[1];
      return [id, room] as const;
    });
}
