import type { WireReason } from '@clampclock/contracts'
import { Textarea } from '@mantine/core'
import { useMay } from '../../../api/use-me.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import styles from './gates.module.css'
import { gatesOf, type Written } from './refusal.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly reasons: readonly WireReason[]
  readonly shopId: string
  readonly written: Written
  readonly onWrite: (code: string, reason: string) => void
  /** Each reason that may be written must be, before its form is sent. */
  readonly isRequired?: boolean
  /** No field where nothing could be done with what is written. */
  readonly isHopeless?: boolean
}

/** What stands against it, gate by gate: what would put it right, and whether somebody may go on all the same. */
export function GateList({
  reasons,
  shopId,
  written,
  onWrite,
  isRequired = false,
  isHopeless = false,
}: Props) {
  const isEntitled = useMay()('takeResponsibility', shopId)
  return (
    <ul className={styles['gates']}>
      {gatesOf(reasons).map(({ code, isOverridable, reasons: own }) => (
        <li key={code}>
          {own.map(({ message, fix }, index) => (
            <div key={index}>
              <p>
                <strong>{message}</strong>
              </p>
              {fix !== undefined && <p>{fix}</p>}
            </div>
          ))}
          {!isOverridable && <Mark tone="danger">{t('features.nothingOverridesThis')}</Mark>}
          {isOverridable && isHopeless && (
            <Mark tone="quiet">{t('features.couldBeOverriddenWereItNotForTheRest')}</Mark>
          )}
          {isOverridable && !isHopeless && !isEntitled && (
            <Mark tone="quiet">{t('features.anOwnerMayGoOnWithAWrittenReason')}</Mark>
          )}
          {isOverridable && !isHopeless && isEntitled && (
            <Textarea
              label={t('features.overrideReason')}
              description={t('features.yourNameAndReasonStayOnRecordWithThe')}
              autosize
              required={isRequired}
              minLength={5}
              maxLength={2000}
              value={written[code] ?? ''}
              onChange={(event) => onWrite(code, event.currentTarget.value)}
            />
          )}
        </li>
      ))}
    </ul>
  )
}
