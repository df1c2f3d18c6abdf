"use server";

import { appStore } from "../../../db/app-store.ts";
import { altitudeHistory, depotOverviews } from "../../../db/depot-overview.ts";
import { addDepot as keepDepot } from "../../_jobs/add-depot.ts";
import { startJob } from "../../_jobs/job-registry.ts";
import { previewBands } from "../../_jobs/preview-bands.ts";
import { altitudeToldSince, saveAltitude } from "../../_jobs/save-altitude.ts";
import { actingViewer } from "../acting.ts";
import { type Begun, notBegun, notUnderstood } from "../asking/begun.ts";
import { decimalSignOf } from "../figures.ts";
import { viewerFormats } from "../viewer.ts";
import type { AskedAltitude } from "./altitude-form.ts";
import { askedAltitudeSchema, readAltitude } from "./altitude-form.ts";
import { metres, unknownDepot } from "./depot-words.ts";
import { type NewDepot, newDepotSchema, readNewDepot } from "./new-depot-form.ts";

async function read(asked: AskedAltitude) {
  const given = askedAltitudeSchema.safeParse(asked);
  if (!given.success) return { refused: { ...notBegun, problem: notUnderstood } };
  const { depot, seen, altitude } = given.data;
  const store = await appStore();
  // What was told before is put back as the form printed it, with a point for everybody.
  const isPrinted = (await altitudeHistory(store, depot)).some((told) => String(told.altitudeM) === altitude);
  const sign = isPrinted ? "." : decimalSignOf((await viewerFormats()).preferences.numbers);
  const altitudeM = readAltitude(altitude, sign);
  if (typeof altitudeM === "string") return { refused: { ...notBegun, problems: { altitude: altitudeM } } };
  const act = await actingViewer();
  if (typeof act === "string") return { refused: { ...notBegun, problem: act } };
  const known = (await depotOverviews(store)).find((overview) => overview.depot === depot);
  if (known === undefined) return { refused: { ...notBegun, problem: unknownDepot(depot) } };
  const meanwhile = await altitudeToldSince(store, depot, seen);
  if (meanwhile !== null) return { refused: { ...notBegun, meanwhile } };
  return { wish: { depot, seen, altitudeM }, known: known.altitudeM, act, store };
}

/** Begins to look at what another altitude of a depot would change. */
export async function previewAltitude(asked: AskedAltitude): Promise<Begun> {
  const given = await read(asked);
  if ("refused" in given) return given.refused;
  const { wish, known, act, store } = given;
  const f = await viewerFormats();
  const before = known === null ? "not known" : metres(f, known);
  const job = startJob("preview", (control) => previewBands(store, { depots: [wish] }, act, control));
  return { ...notBegun, job, reads: [{ column: "Altitude", before, after: metres(f, wish.altitudeM) }] };
}

/** Begins to keep the altitude, and to assess the units that it touches. */
export async function keepAltitude(asked: AskedAltitude): Promise<Begun> {
  const given = await read(asked);
  if ("refused" in given) return given.refused;
  const { wish, act, store } = given;
  return { ...notBegun, kind: "save", job: startJob("altitude", (control) => saveAltitude(store, wish, act, control)) };
}

/** Begins to add a depot that no file has named yet. */
export async function addDepot(asked: NewDepot): Promise<Begun> {
  const given = newDepotSchema.safeParse(asked);
  if (!given.success) return { ...notBegun, problem: notUnderstood };
  const store = await appStore();
  const known = (await depotOverviews(store)).map(({ depot }) => depot);
  const read = readNewDepot(given.data, known, decimalSignOf((await viewerFormats()).preferences.numbers));
  if (!read.ok) return { ...notBegun, problems: read.problems };
  const act = await actingViewer();
  if (typeof act === "string") return { ...notBegun, problem: act };
  return { ...notBegun, kind: "save", job: startJob("save", (control) => keepDepot(store, read, act, control)) };
}
