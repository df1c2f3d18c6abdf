import type { FileLayout } from "../../_jobs/file-layout.ts";
import type { ColumnShown } from "./layout-columns.client.tsx";

/** What the form shows of each column: its first cells, why it is read so, and whether a person has to look at it. */
export const shownColumns = ({ columns, questions }: FileLayout): readonly ColumnShown[] =>
  columns.map(({ examples, why, sureness }, index) => {
    const asked = questions.filter((question) => question.columns.includes(index));
    const note = asked.length > 0 ? asked.map(({ words }) => words).join(" ") : sureness === "sure" ? null : why;
    return { samples: examples, note: note === "" ? null : note, asks: asked.some(({ needed }) => needed) };
  });
