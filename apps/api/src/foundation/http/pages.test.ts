import { describe, expect, it } from 'vitest'
import { toPage, unpackCursor } from './pages.ts'

describe('pages', () => {
  it('carry a cursor only while there is more, and it leads to the last row', () => {
    const page = toPage(
      [1, 2, 3],
      2,
      (row) => row * 10,
      (row) => [row, `row ${row}`],
    )
    expect(page.items).toEqual([10, 20])
    expect(unpackCursor(page.nextCursor!, 2)).toEqual([2, 'row 2'])
    expect(
      toPage(
        [1, 2],
        2,
        (row) => row,
        (row) => [row],
      ).nextCursor,
    ).toBeNull()
  })

  it.each([
    '',
    'nonsense',
    Buffer.from('{"a":1}').toString('base64url'),
    Buffer.from('[1]').toString('base64url'),
    Buffer.from('[null,1]').toString('base64url'),
  ])('refuse %j as a cursor of two parts', (cursor) => {
    expect(() => unpackCursor(cursor, 2)).toThrow('is not a cursor of this list')
  })
})
