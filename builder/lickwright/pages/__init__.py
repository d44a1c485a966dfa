"""The pages of the site: what each orders, and how it renders once the orders are made.

``site.site_pages(book)`` lists all pages of an edition. Templates and theme come from ``templates``;
no page and no template calls a renderer.
"""
