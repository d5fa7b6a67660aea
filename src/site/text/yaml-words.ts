/** The YAML library's complaints in the words of someone who writes a site file. */

import type { YAMLError } from "yaml";
import { Lexer } from "yaml";

interface Words {
  readonly message: string;
  readonly hint: string;
}

const INDENTATION: Words = {
  message: "the indentation of this line or the next does not fit",
  hint: "keys of one block stand exactly under each other, two spaces to the right of the block's own key",
};

const NOT_YAML: Words = {
  message: "this can not be read",
  hint: "check this line and the one before it: 'key: value', levels indented by two spaces, brackets and quotes closed",
};

const OF_CODE: Readonly<Partial<Record<YAMLError["code"], Words>>> = {
  TAB_AS_INDENT: { message: "a tab stands in the indentation", hint: "indent with spaces, two for each level" },
  BAD_INDENT: INDENTATION,
  BLOCK_AS_IMPLICIT_KEY: INDENTATION,
  MULTILINE_IMPLICIT_KEY: INDENTATION,
  BLOCK_IN_FLOW: {
    message: "a block begins inside brackets",
    hint: "close the bracket first, or write all of it inside",
  },
  MISSING_CHAR: {
    message: "something is missing here",
    hint: "write 'key: value' with a space after ':', and close brackets and quotes",
  },
  MULTIPLE_DOCS: {
    message: "a second document begins here",
    hint: "a site file holds one description: take out the '---'",
  },
  BAD_ALIAS: {
    message: "'*' refers to another place in the file",
    hint: "write the value out: references are not used in site files",
  },
  BAD_DQ_ESCAPE: {
    message: "'\\' means something else inside double quotes",
    hint: "use single quotes, or write '\\\\'",
  },
  BAD_SCALAR_START: { message: "a value can not begin with this sign", hint: "put the value in quotes" },
  DUPLICATE_KEY: { message: "a key is written twice", hint: "keep one of them" },
};

export function syntaxWords(error: YAMLError): Words {
  return OF_CODE[error.code] ?? NOT_YAML;
}

/** Where the first bracket begins that is never closed, or null: the library only knows where the file ends. */
export function unclosedBracketAt(text: string): number | null {
  const open: number[] = [];
  let offset = 0;
  for (const token of new Lexer().lex(text)) {
    // The lexer marks documents, text blocks and values with single control signs that are not in the file.
    if (token === "\u0002" || token === "\u0018" || token === "\u001f") continue;
    if (token === "[" || token === "{") open.push(offset);
    if (token === "]" || token === "}") open.pop();
    offset += token.length;
  }
  return open[0] ?? null;
}
