import { message, type Message } from '@clampclock/messages'
import { asData, type Rule } from '../../foundation/words/from-text.ts'

const VALUE: readonly Rule[] = [
  [
    /^(.*) has a character that is not allowed there$/s,
    (text) => message('stock-problem.valueCharacter', { text: text! }),
  ],
  [/^has no value$/, () => message('stock-problem.valueMissing')],
  [
    /^(.*) is too short: (\d+) characters are needed$/s,
    (text, least) => message('stock-problem.valueShort', { text: text!, least: Number(least) }),
  ],
  [
    /^(.*) has check digit (.), but (\d) would be right: scan or type it again$/s,
    (text, digit, right) =>
      message('stock-problem.valueCheckDigit', { text: text!, digit: digit!, right: right! }),
  ],
  [/^(.*) is no date YYMMDD$/s, (text) => message('stock-problem.valueNoDate', { text: text! })],
  [/^is too long: (.*) is left over$/s, (text) => message('stock-problem.valueLong', { text: text! })],
]

const INSIDE: readonly Rule[] = [
  [/^the label is empty$/, () => message('stock-problem.labelEmpty')],
  [/^it is no web address$/, () => message('stock-problem.noAddress')],
  [/^its path has no GS1 key, /, () => message('stock-problem.noKeyInPath')],
  [
    /^(.+) begins with no GS1 application identifier$/s,
    (text) => message('stock-problem.noIdentifierAt', { text: text! }),
  ],
  [
    /^(.+) is no GS1 application identifier$/s,
    (text) => message('stock-problem.noIdentifier', { text: text! }),
  ],
  [
    /^\((\d+)\) stands on the label twice, with different values$/,
    (element) => message('stock-problem.elementTwice', { element: element! }),
  ],
  [
    /^\((\d+)\) stands in the link twice, with different values$/,
    (element) => message('stock-problem.elementTwiceInLink', { element: element! }),
  ],
  [/^\((\d+)\) is badly encoded$/, (element) => message('stock-problem.badlyEncoded', { element: element! })],
  [
    /^(\/.*\/) may not stand there in the path$/s,
    (element) => message('stock-problem.notThereInPath', { element: element! }),
  ],
  // Last: what is wrong with the value of an element, whichever it is.
  [
    /^\((\d+)\) (.*)$/s,
    (element, what) =>
      message('stock-problem.ofElement', { element: element!, what: { message: asData(what!, VALUE) } }),
  ],
]

const RULES: readonly Rule[] = [
  [/^Nothing was scanned$/, () => message('stock-problem.nothingScanned')],
  [/^The label names no product: /, () => message('stock-problem.labelWithoutGtin')],
  [/^(\d+) has no length of a GTIN$/, (digits) => message('stock-problem.noGtinLength', { digits: digits! })],
  [
    /^The check digit of (\d+) is wrong: /,
    (digits) => message('stock-problem.wrongCheckDigit', { digits: digits! }),
  ],
  [
    /^The label cannot be read: (.+)$/s,
    (what) => message('stock-problem.labelUnreadable', { what: { message: asData(what!, INSIDE) } }),
  ],
]

/** What packages/stock says against a scanned text, as data. */
export function scanSentence(text: string): Message {
  return asData(text, RULES)
}
