import type { EngineWithFittings } from "@/db/engines.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { EmptyState } from "../empty-state.tsx";
import { Paging } from "../paging.tsx";
import { Sheet } from "../sheet.tsx";
import { Term } from "../term.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";
import { engineAddress, enginesAddress, enginesFileAddress, type EnginesView as View } from "./address.ts";
import { engineName, stayNow } from "./engine-words.ts";

/** Every engine that is known: its number, where it is and where it was. */
export function EnginesView(props: {
  readonly view: View;
  readonly engines: readonly EngineWithFittings[];
  readonly total: number;
  readonly pageSize: number;
  readonly f: Formats;
}) {
  const { view, engines, total, pageSize, f } = props;
  return (
    <div className="page">
      <h1 className="finding">
        {total === 0 && view.search === ""
          ? "No engine is known yet."
          : "Wear follows the engine, whichever unit it is in."}
      </h1>
      <Sheet
        title="Engines"
        note={
          <>
            by number; one in no unit is a <Term of="float" /> or a <Term of="core" />
          </>
        }
        controls={total > 0 && <CsvLink href={enginesFileAddress(view)} of="engines" />}
        long
      >
        <form action="/engines" className="engines-search no-print">
          <label>
            Number, model or unit
            <input type="search" name="search" defaultValue={view.search} />
          </label>
          <button type="submit" className="button-link">
            Search
          </button>
        </form>
        {engines.length === 0 ? (
          <EmptyState
            says={
              view.search === ""
                ? "Engines appear with the first file that names a unit and its engine model."
                : "No engine matches this search."
            }
          >
            {view.search === "" ? (
              <>
                <AppLink href="/import" variant="filled">
                  Import a file
                </AppLink>
                <AppLink href="/models">Engine models</AppLink>
              </>
            ) : (
              <AppLink href="/engines" variant="button">
                Show all engines
              </AppLink>
            )}
          </EmptyState>
        ) : (
          <>
            <ScrollBox name="List of engines">
              <table className="data-table engines-table">
                <caption className="visually-hidden">Engines by number, with where each is and was</caption>
                <thead>
                  <tr>
                    <th scope="col">Engine</th>
                    <th scope="col">Model</th>
                    <th scope="col">Now in</th>
                    <th scope="col">Since</th>
                    <th scope="col">Before in</th>
                  </tr>
                </thead>
                <tbody>
                  {engines.map((engine) => (
                    <EngineRow key={engine.engine} engine={engine} f={f} />
                  ))}
                </tbody>
              </table>
            </ScrollBox>
            <EnginesPaging view={view} total={total} pageSize={pageSize} f={f} />
          </>
        )}
      </Sheet>
    </div>
  );
}

function EngineRow({ engine, f }: { readonly engine: EngineWithFittings; readonly f: Formats }) {
  const now = stayNow(engine);
  const before = engine.fittings.filter((stay) => stay !== now).toReversed();
  const since = now === null ? engine.fittings.at(-1)?.toDate : now.fromDate;
  return (
    <tr>
      <th scope="row" className="unit-row-name">
        <AppLink href={engineAddress(engine.engine)}>{engineName(engine)}</AppLink>
      </th>
      <td>{engine.engineModel}</td>
      <td>{now === null ? "no unit" : <AppLink href={unitAddress(now.unit)}>{now.unit}</AppLink>}</td>
      <td>{since == null ? "the first record" : f.date(since)}</td>
      <td>{before.length === 0 ? "–" : before.map((stay) => stay.unit).join(", ")}</td>
    </tr>
  );
}

function EnginesPaging(props: {
  readonly view: View;
  readonly total: number;
  readonly pageSize: number;
  readonly f: Formats;
}) {
  const { view, total, pageSize, f } = props;
  const first = (view.page - 1) * pageSize + 1;
  const last = Math.min(total, view.page * pageSize);
  const to = (page: number) => enginesAddress({ ...view, page });
  return (
    <Paging
      says={
        total > pageSize
          ? `${f.number(first)} to ${f.number(last)} of ${f.number(total)} engines`
          : `${f.number(total)} ${total === 1 ? "engine" : "engines"}`
      }
      label="Pages of engines"
      steps={
        total > pageSize
          ? [
              { href: view.page > 1 ? to(view.page - 1) : null, says: "Back" },
              { href: last < total ? to(view.page + 1) : null, says: "Next" },
            ]
          : null
      }
    />
  );
}
