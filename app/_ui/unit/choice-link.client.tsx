"use client";

import { useSearchParams } from "next/navigation";
import type { ReactNode } from "react";
import { AppLink } from "../app-link.client.tsx";
import { readAskedView, withView } from "./axis-view.ts";

/** A link to another choice of what the charts show; the part of the axis that is in view stays in view. */
export function ChoiceLink(props: {
  readonly href: string;
  readonly chosen: boolean;
  readonly label?: string;
  readonly className?: string;
  /** Whether it looks like a link in a text. */
  readonly inText?: boolean;
  readonly children: ReactNode;
}) {
  const search = useSearchParams();
  const [address = "", place] = props.href.split("#");
  const [path = "", fields = ""] = address.split("?");
  const next = withView(
    new URLSearchParams(fields),
    readAskedView((name) => search.get(name)),
  );
  return (
    <AppLink
      href={`${path}${next === "" ? "" : `?${next}`}${place === undefined ? "" : `#${place}`}`}
      variant={props.inText ? "text" : "bare"}
      scroll={false}
      {...(props.className === undefined ? {} : { className: props.className })}
      {...(props.label === undefined ? {} : { "aria-label": props.label })}
      {...(props.chosen ? { "aria-current": "true" as const } : {})}
    >
      {props.children}
    </AppLink>
  );
}
