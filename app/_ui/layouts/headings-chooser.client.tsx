"use client";

import { Button, Radio } from "@mantine/core";
import { useState } from "react";
import type { HeadingsChoice } from "../../../lib/schema/reading.ts";
import { ErrorNote } from "../error-note.tsx";
import { ProgressLine } from "../import/progress-line.client.tsx";
import { useReadAnew } from "../import/use-read-anew.client.ts";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { columnsAddress } from "./address.ts";

/**
 * The first rows of a file, of which a person chooses the one with the headings, or the lower of two. The file is then read
 * anew, and leads to its columns.
 */
export function HeadingsChooser(props: {
  readonly importId: string;
  readonly file: string;
  readonly fileNo: number;
  readonly rows: readonly (readonly string[])[];
  /** What was chosen before; null: nothing. */
  readonly chosen: HeadingsChoice | null;
}) {
  const { importId, file, fileNo, rows } = props;
  const [row, setRow] = useState<number | null>(props.chosen?.row ?? null);
  const [two, setTwo] = useState(props.chosen?.rows === 2);
  const { job, error, says, ask } = useReadAnew(importId, (id) => columnsAddress(id, fileNo));
  const width = Math.max(...rows.map((cells) => cells.length));
  const isTwo = two && row !== 1;
  const take = () => ask("read-again", { reading: { [file]: { headings: { row, rows: isTwo ? 2 : 1 } } } });
  return (
    <form
      className="house-form"
      onSubmit={(event) => {
        event.preventDefault();
        void take();
      }}
    >
      <ScriptedFields>
        <ScrollBox name="First rows of the file">
          <table className="data-table first-rows">
            <thead>
              <tr>
                <th scope="col">Headings</th>
                {Array.from({ length: width }, (_, i) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: columns have no name yet.
                  <th key={i} scope="col">
                    Column {i + 1}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map((cells, i) => (
                <tr
                  // biome-ignore lint/suspicious/noArrayIndexKey: rows keep their order.
                  key={i}
                  data-chosen={row === i + 1 || (isTwo && row === i + 2)}
                >
                  <th scope="row">
                    <Radio
                      name="headings"
                      label={`Row ${i + 1}`}
                      checked={row === i + 1}
                      disabled={job !== null}
                      onChange={() => setRow(i + 1)}
                    />
                  </th>
                  {Array.from({ length: width }, (_, at) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: columns keep their order.
                    <td key={at}>{cells[at] ?? ""}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
        <Radio.Group
          label="The headings take"
          value={isTwo ? "2" : "1"}
          onChange={(value) => setTwo(value === "2")}
          className="headings-rows"
        >
          <Radio value="1" label="this row alone" disabled={job !== null} />
          <Radio value="2" label="this row and the one above it" disabled={job !== null || row === null || row === 1} />
        </Radio.Group>
        {error !== null && <ErrorNote happened={error} kept="This import waits as before." />}
        {job === null ? (
          <div className="form-buttons">
            <Button type="submit" disabled={row === null}>
              Take these headings
            </Button>
            <p className="second">
              What stands above them is passed over, and they are not read as a test. In a file without any headings,
              write a row of them at its top and give it again.
            </p>
          </div>
        ) : (
          <ProgressLine {...says} />
        )}
      </ScriptedFields>
    </form>
  );
}
