"use client";

import { Button, Textarea } from "@mantine/core";

/** Pasted rows come in as a file of this name. */
const nameOfPaste = "Pasted rows.txt";

/** Rows copied out of a spreadsheet: text that goes the way of a file. */
export function PasteArea({
  text,
  onText,
  onFile,
}: {
  readonly text: string;
  readonly onText: (text: string) => void;
  readonly onFile: (file: File) => void;
}) {
  return (
    <details className="paste-area" open={text === "" ? undefined : true}>
      <summary>Or paste rows from a spreadsheet</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          onFile(new File([text], nameOfPaste, { type: "text/plain" }));
        }}
      >
        <Textarea
          label="Rows"
          description="Copy them in the spreadsheet with their header row, and paste them here."
          value={text}
          onChange={(event) => onText(event.currentTarget.value)}
          minRows={6}
          autosize
          maxRows={16}
          spellCheck={false}
          wrap="off"
        />
        <Button type="submit" variant="default" disabled={text.trim() === ""}>
          Read these rows
        </Button>
      </form>
    </details>
  );
}
