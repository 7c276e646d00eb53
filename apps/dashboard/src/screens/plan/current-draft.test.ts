import { expect, it } from 'vitest'
import { currentDraft } from './current-draft.ts'

const plan = (state: 'draft' | 'published' | 'discarded', day: number) => ({
  state,
  createdAt: `2031-05-0${day}T12:00:00.000Z`,
})

it('the newest draft is looked at, in whatever order they come', () => {
  const [older, newer] = [plan('draft', 5), plan('draft', 6)]
  expect(currentDraft([older, newer])).toBe(newer)
  expect(currentDraft([newer, older, plan('published', 4)])).toBe(newer)
})

it('an older draft does not come back once a newer one is published', () => {
  expect(currentDraft([plan('published', 6), plan('draft', 5)])).toBeUndefined()
})

it('a draft newer than what somebody else published meanwhile is shown', () => {
  const mine = plan('draft', 6)
  expect(currentDraft([mine, plan('published', 5), plan('discarded', 7)])).toBe(mine)
})
