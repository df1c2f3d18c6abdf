"use client";

import { TextInput } from "@mantine/core";
import type { ReactNode, Ref } from "react";

/** A figure on the test sheet: large to tap, with the keys for figures. */
export function TapFigure({
  className,
  onFigure,
  ...props
}: {
  readonly label: string;
  readonly description?: string;
  readonly value: string;
  readonly error: ReactNode;
  readonly className?: string;
  readonly ref?: Ref<HTMLInputElement>;
  readonly onFigure: (typed: string) => void;
}) {
  return (
    <TextInput
      {...props}
      className={className === undefined ? "tap-field" : `tap-field ${className}`}
      inputMode="decimal"
      autoComplete="off"
      maxLength={20}
      onChange={(event) => onFigure(event.currentTarget.value)}
    />
  );
}
