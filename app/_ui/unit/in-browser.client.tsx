"use client";

import { useMounted } from "@mantine/hooks";
import type { ReactNode } from "react";

/** A chart that measures its box before it draws: on the server it would do all its work for an empty one. */
export function InBrowser({ children }: { readonly children: ReactNode }) {
  return useMounted() ? children : null;
}
