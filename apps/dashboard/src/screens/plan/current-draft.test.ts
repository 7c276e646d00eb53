import { expect, it } from 'vitest'
import { currentDraft } from './current-draft.ts'

const at = (day: number) => `2031-05-0${day}T12:00:00.000Z`
const plan = (state: 'draft' | 'published' | 'superseded', day: number, publishedOn?: number) => ({
  state,
  createdAt: at(day),
  publishedAt: publishedOn === undefined ? null : at(publishedOn),
})

it('the newest draft is looked at, in whatever order they come', () => {
  const [older, newer] = [plan('draft', 5), plan('draft', 6)]
  expect(currentDraft([older, newer])).toBe(newer)
  expect(currentDraft([newer, older, plan('published', 3, 4)])).toBe(newer)
})

it('an older draft does not come back once a newer one is published, nor after a hand move on that', () => {
  expect(currentDraft([plan('published', 6, 7), plan('draft', 5)])).toBeUndefined()
  expect(currentDraft([plan('published', 8, 8), plan('superseded', 6, 7), plan('draft', 5)])).toBeUndefined()
})

it('a draft that a hand move or an older draft has outdated is shown', () => {
  const mine = plan('draft', 6)
  expect(currentDraft([plan('published', 7, 7), mine])).toBe(mine)
  expect(currentDraft([mine, plan('published', 5, 7)])).toBe(mine)
})
