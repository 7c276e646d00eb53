import { Button, CopyButton } from '@mantine/core'
import { Copy } from 'lucide-react'
import { Sheet } from '../../../ui/page.tsx'
import styles from '../admin.module.css'
import { t } from '../../../lib/reader.ts'

/** The one time that a secret is shown. */
export function NewSecret({ secret }: { readonly secret: string }) {
  return (
    <output style={{ display: 'block', marginBottom: '1rem' }}>
      <Sheet padded>
        <p style={{ marginTop: 0 }}>
          <strong>{t('admin.copyItNowItIsShownThisOnce')}</strong>
        </p>
        <p className={styles['secret']}>{secret}</p>
        <CopyButton value={secret}>
          {({ copied, copy }) => (
            <Button variant="default" leftSection={<Copy size={16} aria-hidden />} onClick={copy}>
              {copied ? t('admin.copied') : t('admin.copy')}
            </Button>
          )}
        </CopyButton>
      </Sheet>
    </output>
  )
}
