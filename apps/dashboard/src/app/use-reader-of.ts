import { useEffect, useState } from 'react'
import type { Me } from '../api/types.ts'
import { browsersReader } from '../lib/preferences.ts'
import { setReader, useReader } from '../lib/reader.ts'

/** Makes a person the page's reader; true once the words are there, or cannot be had: then it stays as it is. */
export function useReaderOf(me: Me | undefined): boolean {
  const current = useReader()
  const [hasFailed, setFailed] = useState(false)
  const wanted = me && JSON.stringify(browsersReader(me.preferences))
  const isThere = wanted === undefined || wanted === JSON.stringify(current)
  useEffect(() => {
    if (wanted === undefined || isThere) return
    setReader(JSON.parse(wanted) as typeof current).catch(() => setFailed(true))
  }, [wanted, isThere])
  return isThere || hasFailed
}
