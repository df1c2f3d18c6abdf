import type { ReactNode } from "react";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { importAddress } from "../import/address.ts";
import { whenWords } from "../when.ts";

/** A line of a history of what people recorded: who, when, what and why, and the way to its import, which can be undone. */
export function ToldRow(props: {
  readonly f: Formats;
  readonly timeZone: string;
  readonly told: { readonly importId: string; readonly by: string; readonly at: string };
  readonly what: string;
  readonly why: ReactNode;
  /** By whom, and when where that is told; null: it stands. */
  readonly undone: string | null;
}) {
  const { told, undone } = props;
  const when = whenWords(props.f, props.timeZone, told.at);
  return (
    <tr>
      <td>{when}</td>
      <td>{told.by}</td>
      <td>{props.what}</td>
      <td>
        {props.why}
        {undone !== null && ` (undone by ${undone})`}
      </td>
      <td className="no-print">
        <AppLink href={importAddress(told.importId)} aria-label={`Import of ${when}`}>
          {undone === null ? "See or undo it" : "See it"}
        </AppLink>
      </td>
    </tr>
  );
}
