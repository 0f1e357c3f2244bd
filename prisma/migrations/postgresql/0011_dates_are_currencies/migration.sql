-- The one date that was kept of each person becomes a currency of the house, which bars its posts. Who had no date was
-- never out of date, and has a day that is far away.

INSERT INTO "RegisterEntry" ("kind", "id", "revision", "at", "by", "reason", "body")
SELECT 'currency', 'training-until', 1, MAX("createdAt"), 'program', NULL,
    '{"id":"training-until","name":"Training","needs":{"cockpit":"bars","fireGuard":"bars","groundPower":"bars","supervisor":"bars"},"recencyDays":null,"retired":false}'
FROM "Person" WHERE EXISTS (SELECT 1 FROM "Person" WHERE "currentUntil" IS NOT NULL) HAVING COUNT(*) > 0;

INSERT INTO "CurrencyDate" ("personId", "kind", "until")
SELECT "id", 'training-until',
    -- The last day that ended by then: a currency holds to the end of its day.
    CASE WHEN "currentUntil" IS NULL THEN '2199-12-31'
         ELSE to_char(to_timestamp(floor(("currentUntil" - 86400000) / 1000.0)) AT TIME ZONE 'UTC', 'YYYY-MM-DD') END
FROM "Person" WHERE EXISTS (SELECT 1 FROM "Person" WHERE "currentUntil" IS NOT NULL);

ALTER TABLE "Person" DROP COLUMN "currentUntil";
