"use client";

import { Button } from "@mantine/core";
import { type ReactNode, useId, useRef } from "react";
import { NeedsScript } from "../needs-script.tsx";
import { useListening } from "../use-listening.client.ts";

/** A button that asks before it acts: what will be, with a way to do it and a way to leave it. */
export function AskFirst(props: {
  readonly button: string;
  readonly question: string;
  /** What doing it means, in the question's box. */
  readonly children: ReactNode;
  readonly yes: string;
  readonly no: string;
  readonly pending?: boolean;
  readonly onYes: () => void;
}) {
  const isListening = useListening();
  const titleId = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  return (
    <>
      <NeedsScript />
      <Button
        variant="default"
        disabled={!isListening}
        loading={props.pending ?? false}
        onClick={() => dialog.current?.showModal()}
      >
        {props.button}
      </Button>
      <dialog ref={dialog} className="ask" aria-labelledby={titleId}>
        <h2 id={titleId}>{props.question}</h2>
        <p>{props.children}</p>
        <div className="form-buttons">
          <Button
            onClick={() => {
              dialog.current?.close();
              props.onYes();
            }}
          >
            {props.yes}
          </Button>
          <Button variant="default" onClick={() => dialog.current?.close()}>
            {props.no}
          </Button>
        </div>
      </dialog>
    </>
  );
}
