import {
  sayRich,
  type ArgumentsOf,
  type Catalogue,
  type MessageKey,
  type Param,
  type TagsOf,
} from '@clampclock/messages'
import { Children, isValidElement, type ReactElement, type ReactNode } from 'react'
import { reader } from './reader.ts'

type Pattern<Key extends MessageKey> = Catalogue[Key] & string

type RichParams<Key extends MessageKey> = {
  readonly [Name in ArgumentsOf<Pattern<Key>>]: Param | ReactElement
} & { readonly [Tag in TagsOf<Pattern<Key>>]: (children: ReactNode) => ReactElement }

/**
 * The words of a message that holds more than text: a parameter may be an element, such as a time, and each tag of the
 * pattern is drawn by the function of its name: `rich('x.seeThere', { link: (children) => <Link …>{children}</Link> })`.
 */
export function rich<Key extends MessageKey>(key: Key, params: RichParams<Key>): ReactNode {
  const given = Object.entries<Param | ReactElement | ((children: ReactNode) => ReactElement)>(params).map(
    ([name, value]) => {
      if (typeof value === 'function')
        return [name, (children: readonly ReactNode[]) => value(Children.toArray([...children]))]
      return [name, isValidElement(value) ? { part: value } : value]
    },
  )
  // Elements among text get keys by their place.
  return Children.toArray([...sayRich(reader(), key, Object.fromEntries(given) as never)] as ReactNode[])
}

/** What a pattern calls <b>. */
export const strong = (children: ReactNode) => <strong>{children}</strong>
