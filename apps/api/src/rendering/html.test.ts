import fc from 'fast-check';
import { html, joined } from './html.js';

const HOSTILE = `<script>alert(1)</script>"'&\u202e\u0000`;

describe('markup from a template', () => {
  it('escapes text in elements and in attributes', () => {
    expect(html`<p title="${HOSTILE}">${HOSTILE}</p>`.text).toBe(
      '<p title="&lt;script&gt;alert(1)&lt;/script&gt;&quot;&#39;&amp; ">&lt;script&gt;alert(1)&lt;/script&gt;&quot;&#39;&amp; </p>',
    );
  });

  it('takes markup, lists of it, numbers and nothing as they are', () => {
    const items = [html`<b>1</b>`, html`<b>2</b>`];
    expect(html`${items}${null}${3}${joined(items, ' & ')}`.text).toBe('<b>1</b><b>2</b>3<b>1</b> &amp; <b>2</b>');
  });

  it('lets no text open a tag, an entity or an attribute', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const inside = html`${text}`.text;
        expect(inside).not.toMatch(/[<>"'\u0000-\u001f\u202a-\u202e]|&(?!(amp|lt|gt|quot|#39);)/);
      }),
    );
  });
});
