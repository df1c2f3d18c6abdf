import Form from "next/form";
import type { ReactNode } from "react";

/** Chooses the depot that a list shows, as a part of the list's address. Works without script. */
export function DepotChoice(props: {
  /** The page of the list. */
  readonly action: string;
  /** null: all depots. */
  readonly depot: string | null;
  /** Those that can be chosen; one that the address names besides can be kept. */
  readonly depots: readonly string[];
  /** Fields of the address that stay as they are. */
  readonly children: ReactNode;
}) {
  const { depot, depots } = props;
  return (
    <Form action={props.action} prefetch={false} className="list-form">
      {props.children}
      <label>
        Depot{" "}
        <select name="depot" defaultValue={depot ?? ""}>
          <option value="">All depots</option>
          {[...new Set([...depots, ...(depot === null ? [] : [depot])])].map((name) => (
            <option key={name}>{name}</option>
          ))}
        </select>
      </label>
      <button type="submit" className="button-link">
        Show<span className="visually-hidden"> that depot</span>
      </button>
    </Form>
  );
}
