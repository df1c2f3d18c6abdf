import { ChangeCells } from "../change-cells.tsx";
import type { LookedAtFile } from "./workshop-outcome.ts";

/** What a loaded file would change, line by line. */
export function FileChanges({ changes }: Pick<LookedAtFile, "changes">) {
  if (changes.length === 0) return <p>The file says what is in force: it changes nothing.</p>;
  const lines = changes.flatMap(({ before, ...line }) => (before === null ? [] : [{ ...line, before }]));
  const depots = changes.filter(({ before }) => before === null);
  return (
    <>
      <h3>The file changes</h3>
      {lines.length > 0 && <ChangeCells changes={lines} />}
      {depots.length > 0 && (
        <ul className="change-cells">
          {depots.map(({ column, after }) => (
            <li key={`${column} ${after}`}>
              {column}: {after}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
