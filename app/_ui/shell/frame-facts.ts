import { cache } from "react";
import { appStore } from "../../../db/app-store.ts";
import { knowsAircraft } from "../../../db/engine-models.ts";
import { listImports } from "../../../db/imports.ts";
import { readSettings } from "../../../db/settings.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import { asOfDate, dateIn } from "../../_jobs/as-of.ts";

interface FrameFacts {
  readonly asOf: IsoDate;
  readonly fleetName: string;
  /** Some engine model is one of aircraft. */
  readonly hasAircraft: boolean;
  readonly lastImport: { readonly date: IsoDate; readonly by: string; readonly files: readonly string[] } | null;
}

/** What the header and the foot of every page tell; read once a request. */
export const frameFacts = cache(async (): Promise<FrameFacts> => {
  const store = await appStore();
  const [settings, imports, hasAircraft] = await Promise.all([
    readSettings(store),
    listImports(store),
    knowsAircraft(store),
  ]);
  const last = imports
    .filter((one) => one.state === "committed")
    .reduce<(typeof imports)[number] | null>(
      (latest, one) => ((one.committedAt ?? one.at) > (latest?.committedAt ?? latest?.at ?? "") ? one : latest),
      null,
    );
  return {
    asOf: asOfDate(settings, new Date()),
    fleetName: settings.fleetName,
    hasAircraft,
    lastImport:
      last === null
        ? null
        : {
            date: dateIn(settings.timeZone, new Date(last.committedAt ?? last.at)),
            by: last.committedBy ?? last.by,
            // What a form told is one thing, of however many kinds its facts are.
            files: last.files.slice(0, last.origin === "file" ? undefined : 1).map((file) => file.name),
          },
  };
});
