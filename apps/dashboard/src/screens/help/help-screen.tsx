import { t } from '../../lib/reader.ts'
import { TERMS } from '../../ui/help/terms.ts'
import { Page, Sheet } from '../../ui/page.tsx'
import styles from './help.module.css'

/** Every term that a screen explains, in one list. */
export function HelpScreen() {
  return (
    <Page title={t('help.title')} lede={t('help.lede')} narrow>
      <Sheet padded>
        <dl className={styles['terms']}>
          {TERMS.map((term) => (
            <div key={term} id={term}>
              <dt>{t(`help.${term}.term`)}</dt>
              <dd>{t(`help.${term}.meaning`)}</dd>
            </div>
          ))}
        </dl>
      </Sheet>
    </Page>
  )
}
