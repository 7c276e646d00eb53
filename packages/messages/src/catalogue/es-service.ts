import { patterns as alert } from './es/service/alert.ts'
import { patterns as finding } from './es/service/finding.ts'
import { patterns as incident } from './es/service/incident.ts'
import { patterns as mail } from './es/service/mail.ts'
import { patterns as note } from './es/service/note.ts'
import { patterns as planRule } from './es/service/plan-rule.ts'
import { patterns as problem } from './es/service/problem.ts'
import { patterns as reason } from './es/service/reason.ts'

export const service = {
  alert,
  finding,
  incident,
  mail,
  note,
  'plan-rule': planRule,
  problem,
  reason,
}
