import { message, type Message } from '@clampclock/messages'
import { asData, type Rule } from '../../foundation/words/from-text.ts'

const INSIDE: readonly Rule[] = [
  [/^the label is empty$/, () => message('stock-problem.labelEmpty')],
  [/^it is no web address$/, () => message('stock-problem.noAddress')],
  [/^its path has no GS1 key, /, () => message('stock-problem.noKeyInPath')],
  [
    /^(.+) begins with no GS1 application identifier$/,
    (text) => message('stock-problem.noIdentifierAt', { text: text! }),
  ],
  [
    /^(.+) is no GS1 application identifier$/,
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
