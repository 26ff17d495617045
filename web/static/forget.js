// Whoever left, or is asked for the passphrase, leaves no kept page behind.
// Readings that wait to be sent stay.

if ("caches" in window) caches.delete("ampstead-keep");
