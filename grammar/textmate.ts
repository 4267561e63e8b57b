/**
 * The TextMate grammar: colours for editors that run no language server, and for all before the server is up. Generated from the table of words
 * and from the same classes of characters as the scanner, so that a word has the colour of what it is read as.
 */
import { FIRST_KEYWORD, KEYWORDS, keywordType, UNITS_TOO } from "./tokens.ts";
import { WORDS } from "./words.ts";

// Pieces of regular expressions in Oniguruma's notation. A line as editors pass it ends with a line feed, which no class may take.
const B = " \\t\\r\\x{00a0}\\x{1680}\\x{2000}-\\x{200b}\\x{202f}\\x{205f}\\x{3000}\\x{feff}";
const Q = '"\\x{201c}\\x{201d}\\x{201e}\\x{00ab}';
const S = `${B}${Q};,()=\\n`;
const LETTER = "(?:[A-Za-z]|[\\p{L}\\p{M}\\p{N}&&[^\\x{0}-\\x{7f}]]|[\\x{10000}-\\x{10ffff}])";
const WORD = `${LETTER}(?:${LETTER}|[0-9._-])*+`;
const END = `(?=$|[${S}])`;
const DASH = "[-\\x{2010}-\\x{2015}\\x{2212}]";
const SIGN = `(?:\\+|${DASH})?`;
const NUMBER = `${SIGN}[0-9]+(?:\\.[0-9]+)?`;
/** After a word that began with a digit: a comma before a digit would belong to it. */
const END_DIGITS = `(?=$|,(?![0-9])|[${B}${Q};()=\\n])`;
const HEX = "[0-9a-f]{64}";

interface Pattern {
  readonly name?: string;
  readonly match: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
}

/** A pattern whose whole match has one scope. */
function whole(scope: string, match: string): Pattern {
  return { name: `${scope}.gudgeon`, match };
}

/** A pattern whose groups have scopes, in order. */
function groups(match: string, ...scopes: string[]): Pattern {
  const captures: Record<string, { name: string }> = {};
  for (const [i, scope] of scopes.entries()) captures[String(i + 1)] = { name: `${scope}.gudgeon` };
  return { match, captures };
}

function anyOf(words: readonly string[]): string {
  return `(?:${words.join("|")})`;
}

/** A number, and the unit that the next word then is. */
function measured(scope: string, number: string, end: string): Pattern {
  const notUnits = anyOf(KEYWORDS.filter((word) => !UNITS_TOO.includes(word)));
  const unit = `(?!${notUnits}${END})${LETTER}[^${S}]*+|%${END}`;
  return groups(`(${number})${end}(?:[${B}\\x{00b0}]+(${unit}))?`, scope, "keyword.other.unit");
}

function patterns(): Pattern[] {
  const headers = WORDS.filter((row) => row.kind === "header").map((row) => row.word);
  const members = WORDS.filter((row) => row.kind === "member" && row.word !== "note").flatMap((row) => [
    row.word,
    ...(row.also ?? []),
  ]);
  const keyword = anyOf(KEYWORDS) + END;
  const bracketed = `\\[[^\\]${B}${Q}\\n]+\\]`;
  return [
    groups(
      `^[${B}]*(note)(?:[${B}]+([^${B}\\n](?:.*[^${B}\\n])?))?(?=[${B}]*$)`,
      "keyword.other.line.note",
      "string.unquoted.note",
    ),
    groups(
      `^[${B}]*(${anyOf(headers)})(?:[${B}]+(?!${keyword})(${WORD})${END})?${END}`,
      "keyword.control.block",
      "entity.name.type.block",
    ),
    groups(`^[${B}]*(note)${END}`, "keyword.other.line.note"),
    groups(`^[${B}]*(${anyOf(members)})${END}`, "keyword.other.line"),
    whole("comment.line.number-sign", `(?<![^${B}])#.*`),
    whole("string.quoted.double", '"(?:[^"\\n]|"")*+"'),
    whole(
      "string.quoted.double",
      '[\\x{201c}\\x{201d}\\x{201e}\\x{00ab}](?:[^"\\x{201c}\\x{201d}\\x{00bb}\\n]|"")*+["\\x{201c}\\x{201d}\\x{00bb}]',
    ),
    whole("string.quoted.double.unclosed", `[${Q}].*?(?=[ \\t\\r]*$)`),
    measured("constant.numeric.range", `${NUMBER}\\.\\.${NUMBER}`, END_DIGITS),
    measured("constant.numeric.fraction", `${SIGN}[0-9]+/[0-9]+`, END_DIGITS),
    measured("constant.numeric", NUMBER, END_DIGITS),
    measured("constant.numeric.below", "<[0-9]+(?:\\.[0-9]+)?", END),
    whole("constant.other.date", `[0-9]{4}${DASH}[0-9]{2}${DASH}[0-9]{2}${END_DIGITS}`),
    whole("constant.other.time", `(?:[01]?[0-9]|2[0-4]):[0-5][0-9](?::[0-5][0-9](?:\\.[0-9]+)?)?${END_DIGITS}`),
    whole("invalid.illegal.comma-number", `${SIGN}[0-9]+(?:,[0-9]+)+(?:\\.[0-9]+)?${END_DIGITS}`),
    whole("constant.other.digest", `[0-9]+:${HEX}${END_DIGITS}`),
    whole("entity.name.label", `${SIGN}[0-9](?:[^${S}:]|,(?=[0-9]))*+:${END_DIGITS}`),
    whole("variable.other.digits", `${SIGN}[0-9](?:[^${S}]|,(?=[0-9]))*+`),
    whole("keyword.operator.word", keyword),
    whole("variable.other.place", `${WORD}${bracketed}${END}`),
    groups(`(${WORD}${bracketed}/[^${S}]++)`, "variable.other.column"),
    whole("variable.other.path", `${WORD}/[^${S}]++`),
    whole("entity.name.label", `${WORD}:${END}`),
    whole("constant.other.digest", `sha256:${HEX}${END}`),
    whole("variable.other.name", `${WORD}${END}`),
    whole(
      "invalid.illegal.stray",
      `${WORD}${bracketed}/${END}|${WORD}/${END}|${WORD}:[^${S}]++|${WORD}[^${B}${Q}\\n]++`,
    ),
    whole("keyword.operator.plus-minus", `(?:\\+/-|\\x{00b1})${END}`),
    whole("keyword.operator.dash", `${DASH}${END}`),
    whole("keyword.operator.arithmetic", `[+*]${END}`),
    whole("keyword.operator.to-be-taken", `\\?${END}`),
    whole("keyword.operator.assignment", "="),
    whole("punctuation.section.parens", "[()]"),
    whole("punctuation.separator", "[,;]"),
    whole("invalid.illegal.stray", `[^${S}\\x{00b0}][^${S}]*+`),
  ];
}

/** The grammar as the object that `gudgeon.tmLanguage.json` holds. */
export function textmateGrammar(): object {
  return {
    name: "Gudgeon",
    scopeName: "source.gudgeon",
    fileTypes: ["gudgeon"],
    patterns: patterns(),
  };
}

const SCOPES: Readonly<Record<string, string>> = {
  Name: "variable.other.name",
  Number: "constant.numeric",
  DigitWord: "variable.other.digits",
  Slashed: "variable.other.path",
  Place: "variable.other.place",
  Column: "variable.other.column",
  Unit: "keyword.other.unit",
  Range: "constant.numeric.range",
  Fraction: "constant.numeric.fraction",
  Date: "constant.other.date",
  Time: "constant.other.time",
  Text: "string.quoted.double",
  Digest: "constant.other.digest",
  Label: "entity.name.label",
  Below: "constant.numeric.below",
  CommaNumber: "invalid.illegal.comma-number",
  Dash: "keyword.operator.dash",
  Query: "keyword.operator.to-be-taken",
  Plus: "keyword.operator.arithmetic",
  Star: "keyword.operator.arithmetic",
  Equals: "keyword.operator.assignment",
  LParen: "punctuation.section.parens",
  RParen: "punctuation.section.parens",
  Comma: "punctuation.separator",
  Semicolon: "punctuation.separator",
  PlusMinus: "keyword.operator.plus-minus",
  Stray: "invalid.illegal.stray",
  OpenText: "string.quoted.double.unclosed",
  NoteText: "string.unquoted.note",
};

const headerTypes = new Set(WORDS.filter((row) => row.kind === "header").map((row) => keywordType(row.word)));
const memberTypes = new Set(
  WORDS.filter((row) => row.kind === "member").flatMap((row) => [row.word, ...(row.also ?? [])].map(keywordType)),
);

/**
 * The scope that a token has in this grammar, without the language's name at its end.
 * @param type the type of the token
 * @param typeName its name, as `typeName` of the scanner gives it
 * @param first whether only blanks stand before it
 */
export function scopeOf(type: number, typeName: string, first: boolean): string {
  if (type < FIRST_KEYWORD) return SCOPES[typeName] ?? "";
  if (first && headerTypes.has(type)) return "keyword.control.block";
  if (first && memberTypes.has(type)) return typeName === "note" ? "keyword.other.line.note" : "keyword.other.line";
  return "keyword.operator.word";
}
