/**
 * A remark about an answer: a code and numbers for whoever builds the screen, and the same in plain English. Sentences in
 * other languages come from the catalogues of the callers, by the code.
 */
export interface Advice<Code extends string = string> {
  readonly code: Code;
  readonly values: Readonly<Record<string, number | string>>;
  readonly text: string;
}
