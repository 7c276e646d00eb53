import type { Database } from '../database/database.ts'
export async function loadDemo(_database: Database, _now: Date): Promise<void> {}
