import { patterns as calendar } from '../catalogue/es/calendar.ts'
import { patterns as api } from '../catalogue/es/api.ts'
import { patterns as app } from '../catalogue/es/app.ts'
import { patterns as features } from '../catalogue/es/features.ts'
import { patterns as lib } from '../catalogue/es/lib.ts'
import { patterns as ui } from '../catalogue/es/ui.ts'
import { patterns as words } from '../catalogue/es/words.ts'
import { patterns as signIn } from '../catalogue/es/sign-in.ts'

/** What every page may say: one file, which is fetched first. */
export const patterns = { ...calendar, ...api, ...app, ...features, ...lib, ...ui, ...words, ...signIn }
