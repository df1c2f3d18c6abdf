import type { ReactNode } from "react";
import { NameForm } from "./name-form.client.tsx";

/** Shows what changes data only to someone who gave a name; else asks for the name first. */
export function NameGate(props: {
  /** From `viewerName()`. */
  readonly name: string | null;
  /** Why the name is asked for, one sentence. */
  readonly why?: string;
  /** What can be read meanwhile. */
  readonly told?: ReactNode;
  readonly children: ReactNode;
}) {
  if (props.name !== null) return props.children;
  return (
    <div className="name-gate">
      {props.told}
      <p>{props.why ?? "Every change is kept with the name of the person who made it."}</p>
      <NameForm name={null} />
    </div>
  );
}
