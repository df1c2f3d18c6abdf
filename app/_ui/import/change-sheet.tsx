import type { ChangedThing } from "../../../db/changed-rows.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { viewerFormats } from "../viewer.ts";
import { changeLines, thingTitle } from "./change-words.ts";
import { ListPaging } from "./list-paging.tsx";

/** What a staged import says otherwise, or more, than is known: now, and as it would be. */
export async function ChangeSheet(props: {
  readonly importId: string;
  readonly things: readonly ChangedThing[];
  readonly total: number;
  readonly page: number;
  readonly addressOf: (page: number) => string;
}) {
  if (props.total === 0) return null;
  const f = await viewerFormats();
  return (
    <Sheet
      title={`Changes of what is known: ${f.number(props.total)}`}
      note="Left out unless you tick the box above. Cells left blank change nothing."
      controls={
        <CsvLink
          href={`/api/imports/${encodeURIComponent(props.importId)}/changes?format=csv`}
          of="changes of what is known"
        />
      }
      long
    >
      <ul className="change-list">
        {props.things.map((thing) => (
          <li key={`${thing.kind} ${thing.file} ${thing.line} ${thing.subject}`}>
            <h3>{thingTitle(thing, f)}</h3>
            <p className="second small">
              {thing.file}, line {f.number(thing.line)}
            </p>
            <dl>
              {thing.changes
                .flatMap((change) => changeLines(change, f))
                .map(({ column, before, after }) => (
                  <div key={column}>
                    <dt>{column}</dt>
                    <dd>
                      <span className="visually-hidden">now </span>
                      <del>{before}</del>
                      <span aria-hidden="true"> → </span>
                      <span className="visually-hidden">, then </span>
                      <ins>{after}</ins>
                    </dd>
                  </div>
                ))}
            </dl>
          </li>
        ))}
      </ul>
      <ListPaging label="Changes" page={props.page} total={props.total} addressOf={props.addressOf} />
    </Sheet>
  );
}
