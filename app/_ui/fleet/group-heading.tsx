import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { compareAddress } from "../compare/address.ts";
import { type DepotWeeks, weekWords } from "./depot-weeks.ts";
import { type GroupRun, groupName } from "./groups.ts";
import { groupWords } from "./row-words.ts";
import type { FleetShown } from "./shown.ts";

/** A group's name, how many units it has, what of it is due; of a depot also its next closed and peak weeks. */
export function GroupHeading({ run, ...shown }: FleetShown & { readonly run: GroupRun }) {
  const { group, continued } = run;
  const grouping = shown.view.group ?? "depot";
  const band = run.rows[0]?.band ?? null;
  const weeks = grouping === "depot" && group.key !== null ? shown.weeks.get(group.key) : undefined;
  return (
    <>
      <span className="group-line">
        {grouping === "band" && band !== null ? (
          <BandMark band={band} />
        ) : (
          <span className="group-name">{groupName(group, grouping)}</span>
        )}
        {continued && <span className="second"> continued</span>}{" "}
        <span className="second">{groupWords(group, { grouping, within: shown.within, f: shown.f })}</span>
        {grouping === "model" && group.key !== null && !continued && (
          <>
            {" "}
            <AppLink href={compareAddress({ model: group.key })} className="group-link no-print">
              Compare<span className="visually-hidden"> {groupName(group, grouping)}</span>
            </AppLink>
          </>
        )}
      </span>
      {weeks !== undefined && <span className="group-line line-second">{nextWeeks(weeks, shown)}</span>}
    </>
  );
}

/** The first closed weeks and the first peak weeks of those that the axis shows. */
function nextWeeks({ spans }: DepotWeeks, { span, f }: FleetShown): string {
  return (["closed", "peak"] as const)
    .flatMap((kind) => spans.find((its) => its.kind === kind) ?? [])
    .map((its) => weekWords(its, span, f))
    .join(" · ");
}
