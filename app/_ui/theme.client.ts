"use client";

import { type CSSVariablesResolver, createTheme, type MantineColorsTuple } from "@mantine/core";

const petrol: MantineColorsTuple = [
  "#eef5f5",
  "#dcebeb",
  "#b5d6d8",
  "#8fc7cb",
  "#57a3a9",
  "#2b7f86",
  "#1a6a71",
  "#0b555c",
  "#0c3a40",
  "#0a1f23",
];

// Index 7 is the surface: Mantine draws panels and popovers on it.
const dark: MantineColorsTuple = [
  "#e4ebeb",
  "#c4d0d1",
  "#a9b8bb",
  "#93a4a8",
  "#74878b",
  "#2c3b40",
  "#1e2b2f",
  "#152024",
  "#0f181b",
  "#0a1215",
];

export const theme = createTheme({
  colors: { petrol, dark },
  primaryColor: "petrol",
  // One shade for each scheme: Mantine's autoContrast looks at the light shade alone and fails in dark.
  primaryShade: { light: 7, dark: 5 },
  fontFamily: "var(--font-sans)",
  headings: { fontFamily: "var(--font-sans)", fontWeight: "650" },
  fontSizes: { xs: "12.5px", sm: "14.5px", md: "15px", lg: "18px", xl: "24px" },
  lineHeights: { xs: "1.3", sm: "1.4", md: "1.45", lg: "1.3", xl: "1.28" },
  spacing: { xs: "6px", sm: "10px", md: "16px", lg: "24px", xl: "40px" },
  radius: { xs: "2px", sm: "3px", md: "3px", lg: "3px", xl: "3px" },
  defaultRadius: "sm",
  shadows: { xs: "none", sm: "none", md: "none", lg: "none", xl: "none" },
  cursorType: "pointer",
});

/** Mantine's own colours are ours, so that a token changed once (dark, print) changes everywhere. */
export const resolveCssVariables: CSSVariablesResolver = () => {
  const ours = {
    "--mantine-color-body": "var(--page)",
    "--mantine-color-text": "var(--ink)",
    "--mantine-color-dimmed": "var(--ink-2)",
    "--mantine-color-placeholder": "var(--ink-3)",
    "--mantine-color-anchor": "var(--accent)",
    "--mantine-color-default": "var(--surface)",
    "--mantine-color-default-hover": "var(--sunk)",
    "--mantine-color-default-color": "var(--ink)",
    "--mantine-color-default-border": "var(--rule-strong)",
    "--mantine-color-error": "var(--past)",
    "--mantine-color-petrol-light": "var(--accent-wash)",
    "--mantine-color-petrol-light-color": "var(--accent)",
    "--mantine-color-gray-light": "var(--sunk)",
    "--mantine-color-gray-light-color": "var(--ink-2)",
  };
  return { variables: {}, light: ours, dark: ours };
};
