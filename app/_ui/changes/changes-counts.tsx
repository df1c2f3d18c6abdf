import type { ChangeCounts } from "../../../db/changes.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { type ChangesView, changesAddress } from "./address.ts";

type Filter = Pick<ChangesView, "kind" | "direction">;

const filters: readonly (readonly [keyof ChangeCounts, string, Filter])[] = [
  ["told", "changed", { kind: null, direction: null }],
  ["worse", "worse", { kind: null, direction: "worse" }],
  ["better", "better", { kind: null, direction: "better" }],
  ["band", "band", { kind: "band", direction: null }],
  ["window", "window", { kind: "window", direction: null }],
  ["question", "question", { kind: "question", direction: null }],
  ["fleet", "new or left", { kind: "fleet", direction: null }],
  ["test", "tested", { kind: "test", direction: null }],
];

/** How many units changed in which way; each count leads to its units. What became of them left, in which matter right. */
export function ChangesCountLinks(props: {
  readonly counts: ChangeCounts;
  readonly view: ChangesView;
  readonly f: Formats;
}) {
  const { counts, view, f } = props;
  return (
    <nav aria-label="Changes by kind" className="counts">
      <ul>
        {filters.map(([name, words, filter]) => (
          <li key={name} className={filter.kind === null ? "count" : "count count-open"}>
            <AppLink
              variant="bare"
              href={changesAddress(view, filter)}
              scroll={false}
              {...(view.kind === filter.kind && view.direction === filter.direction
                ? { "aria-current": "true" as const }
                : {})}
            >
              <span className="count-figure">{f.number(counts[name])}</span>{" "}
              <span className="count-words">{words}</span>
            </AppLink>
          </li>
        ))}
      </ul>
    </nav>
  );
}
