import type { ImportDetail } from "../../../db/imports.ts";
import { openQuestions } from "../../_jobs/open-questions.ts";
import { AppLink } from "../app-link.client.tsx";
import { columnsAddress } from "../layouts/address.ts";
import { Sheet } from "../sheet.tsx";
import { viewerFormats } from "../viewer.ts";

/** What is asked of files that cannot be read before it is answered, and the way to answer it. */
export async function WaitingSheet({ detail }: { readonly detail: ImportDetail }) {
  const f = (await viewerFormats()).knowing(detail.files.map((file) => file.name));
  const waiting = detail.files.flatMap((file) => {
    const questions = openQuestions(file);
    return questions.length === 0 ? [] : [{ file, questions }];
  });
  if (waiting.length === 0) return null;
  return (
    <Sheet title="What is to be answered" long>
      <ul className="waiting-files">
        {waiting.map(({ file, questions }) => (
          <li key={file.fileNo}>
            <h3>{file.name}</h3>
            <ul>
              {questions.map(({ code, words, columns }) => (
                <li key={`${code} ${columns.join()}`}>{f.words(words)}</li>
              ))}
            </ul>
            <p className="no-print">
              <AppLink href={columnsAddress(detail.id, file.fileNo)} variant="filled">
                Answer, and see its columns
                {waiting.length > 1 && <span className="visually-hidden"> ({file.name})</span>}
              </AppLink>
            </p>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
