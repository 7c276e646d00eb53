import { patterns as calendar } from '../catalogue/en/calendar.ts'
import { patterns as api } from '../catalogue/en/api.ts'
import { patterns as app } from '../catalogue/en/app.ts'
import { patterns as features } from '../catalogue/en/features.ts'
import { patterns as lib } from '../catalogue/en/lib.ts'
import { patterns as ui } from '../catalogue/en/ui.ts'
import { patterns as words } from '../catalogue/en/words.ts'
import { patterns as signIn } from '../catalogue/en/sign-in.ts'

/** What every page may say: one file, which is fetched first. */
export const patterns = { ...calendar, ...api, ...app, ...features, ...lib, ...ui, ...words, ...signIn }
