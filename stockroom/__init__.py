"""A shop-floor inventory and storage-age monitor for film kept in rolls."""
