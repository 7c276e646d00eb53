import styles from './unit-select.module.css'
import { t } from '../../lib/reader.ts'

interface Props<Unit extends string> {
  readonly unit: Unit
  readonly units: Readonly<Record<Unit, string>>
  readonly onChange: (unit: Unit) => void
}

/** Says the unit of a field, and switches it: what is in the field is then shown in the other unit. */
export function UnitSelect<Unit extends string>({ unit, units, onChange }: Props<Unit>) {
  return (
    <select
      className={styles['unit']}
      aria-label={t('ui.unit')}
      value={unit}
      onChange={({ currentTarget }) => onChange(currentTarget.value as Unit)}
    >
      {Object.entries<string>(units).map(([value, label]) => (
        <option key={value} value={value}>
          {label}
        </option>
      ))}
    </select>
  )
}

/** Wide enough for the longest unit and the mark of a list, px. */
export const UNIT_WIDTH = 64
