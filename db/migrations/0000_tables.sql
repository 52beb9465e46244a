CREATE TABLE "batch_revisions" (
	"batch" uuid NOT NULL,
	"site" integer NOT NULL,
	"day" date NOT NULL,
	"method" text NOT NULL,
	"grain" text NOT NULL,
	"loads" integer NOT NULL,
	"number" text,
	"pan" text,
	"harvest" text,
	"start_minute" integer,
	"end_minute" integer,
	"fresh_exact" text,
	"fresh_kg" double precision,
	"dried_exact" text,
	"dried_kg" double precision,
	"dried_to_come" boolean NOT NULL,
	"minutes_exact" text,
	"minutes" double precision,
	"rejects_exact" text,
	"rejects_kg" double precision,
	"sand_exact" text,
	"sand_kg" double precision,
	"new_sand" boolean,
	"crush_test" text,
	"crisp" text,
	"colour" text,
	"moisture_exact" text,
	"moisture" double precision,
	"water_activity_exact" text,
	"water_activity" double precision,
	"in_time" boolean NOT NULL,
	"file" uuid,
	"withdrawn" boolean NOT NULL,
	"reason" text NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "batch_revisions_come_once_a_record" PRIMARY KEY("batch","ledger_index"),
	CONSTRAINT "batch_revisions_stand_for_loads" CHECK ("batch_revisions"."loads" > 0)
);
--> statement-breakpoint
CREATE TABLE "file_bytes" (
	"sha256" text PRIMARY KEY NOT NULL,
	"bytes" "bytea" NOT NULL
);
--> statement-breakpoint
CREATE TABLE "file_states" (
	"file" uuid NOT NULL,
	"site" integer,
	"state" text NOT NULL,
	"detail" jsonb NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "file_states_come_once_a_record" PRIMARY KEY("file","ledger_index","state"),
	CONSTRAINT "file_states_are_known" CHECK ("file_states"."state" in ('arrived', 'read', 'settled', 'counted', 'withdrawn'))
);
--> statement-breakpoint
CREATE TABLE "files" (
	"id" uuid PRIMARY KEY NOT NULL,
	"site" integer,
	"sha256" text NOT NULL,
	"bytes" integer NOT NULL,
	"name_sealed" text NOT NULL,
	"sent_by" uuid NOT NULL,
	"arrived_at" timestamp with time zone NOT NULL,
	"claimed_at" timestamp with time zone,
	"came_by" text NOT NULL,
	"ledger_index" bigint NOT NULL
);
--> statement-breakpoint
CREATE TABLE "fuel_entries" (
	"id" uuid NOT NULL,
	"site" integer NOT NULL,
	"day" date NOT NULL,
	"fuel" text NOT NULL,
	"batch" uuid,
	"said" jsonb NOT NULL,
	"file" uuid,
	"withdrawn" boolean NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "fuel_entries_come_once_a_record" PRIMARY KEY("id","ledger_index")
);
--> statement-breakpoint
CREATE TABLE "fuel_spans" (
	"site" integer NOT NULL,
	"from_day" date NOT NULL,
	"to_day" date NOT NULL,
	"fuel" text NOT NULL,
	"how" text NOT NULL,
	"unit" text NOT NULL,
	"low" double precision,
	"best" double precision,
	"high" double precision,
	"shared" boolean NOT NULL,
	"gone" boolean NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "fuel_spans_change_once_a_record" PRIMARY KEY("site","from_day","to_day","fuel","how","unit","ledger_index")
);
--> statement-breakpoint
CREATE TABLE "ledger" (
	"index" bigint PRIMARY KEY NOT NULL,
	"at" timestamp with time zone NOT NULL,
	"person" uuid NOT NULL,
	"command" text NOT NULL,
	"site" integer,
	"record" text NOT NULL,
	"leaf" text NOT NULL,
	"peaks" text[] NOT NULL,
	CONSTRAINT "ledger_counts_from_one" CHECK ("ledger"."index" > 0)
);
--> statement-breakpoint
CREATE TABLE "sign_in_failures" (
	"key" text PRIMARY KEY NOT NULL,
	"count" integer NOT NULL,
	"since" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "people" (
	"id" uuid NOT NULL,
	"role" text NOT NULL,
	"site" integer,
	"active" boolean NOT NULL,
	"name_sealed" text,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "people_are_decided_once_a_record" PRIMARY KEY("id","ledger_index"),
	CONSTRAINT "people_have_a_known_role" CHECK ("people"."role" in ('operator', 'officer', 'lead', 'auditor')),
	CONSTRAINT "people_who_lead_have_a_site" CHECK (("people"."role" = 'lead') = ("people"."site" is not null))
);
--> statement-breakpoint
CREATE TABLE "sessions" (
	"token_hash" text PRIMARY KEY NOT NULL,
	"person" uuid NOT NULL,
	"begun" timestamp with time zone NOT NULL,
	"seen" timestamp with time zone NOT NULL,
	"until" timestamp with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "sign_ins" (
	"person" uuid PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"password_hash" text,
	"must_change" boolean NOT NULL,
	"reset_hash" text,
	"reset_until" timestamp with time zone,
	CONSTRAINT "sign_ins_have_their_own_name" UNIQUE("name")
);
--> statement-breakpoint
CREATE TABLE "publications" (
	"id" uuid PRIMARY KEY NOT NULL,
	"site" integer NOT NULL,
	"month" text NOT NULL,
	"edition" text NOT NULL,
	"known_size" bigint NOT NULL,
	"figures" text NOT NULL,
	"ledger_index" bigint NOT NULL
);
--> statement-breakpoint
CREATE TABLE "row_batches" (
	"file" uuid NOT NULL,
	"sheet" text NOT NULL,
	"row" integer NOT NULL,
	"batch" uuid NOT NULL,
	"site" integer NOT NULL,
	"part" text NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "row_batches_are_said_once_a_record" PRIMARY KEY("file","ledger_index","sheet","row","batch")
);
--> statement-breakpoint
CREATE TABLE "rows" (
	"file" uuid NOT NULL,
	"sheet" text NOT NULL,
	"row" integer NOT NULL,
	"site" integer,
	"fate" text NOT NULL,
	"grain" text,
	"dried_only" boolean NOT NULL,
	"reasons" jsonb NOT NULL,
	"cells" jsonb NOT NULL,
	"written" jsonb,
	"sealed" text[] NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "rows_have_one_fate_a_record" PRIMARY KEY("file","ledger_index","sheet","row"),
	CONSTRAINT "rows_end_in_one_of_three_ways" CHECK ("rows"."fate" in ('counted', 'held', 'set-aside'))
);
--> statement-breakpoint
CREATE TABLE "sealed" (
	"commitment" text PRIMARY KEY NOT NULL,
	"salt" text NOT NULL,
	"value" text NOT NULL,
	"site" integer,
	"ledger_index" bigint NOT NULL
);
--> statement-breakpoint
CREATE TABLE "facts" (
	"site" integer NOT NULL,
	"kind" text NOT NULL,
	"key" text NOT NULL,
	"from_day" date NOT NULL,
	"to_day" date,
	"value" jsonb,
	"declared_on" date NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "facts_are_said_once_a_record" PRIMARY KEY("site","kind","key","from_day","ledger_index")
);
--> statement-breakpoint
CREATE TABLE "sites" (
	"id" integer PRIMARY KEY NOT NULL,
	"code" text NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "sites_have_their_own_code" UNIQUE("code")
);
--> statement-breakpoint
CREATE TABLE "day_sums" (
	"site" integer NOT NULL,
	"day" date NOT NULL,
	"method" text NOT NULL,
	"measure" text NOT NULL,
	"batches" integer NOT NULL,
	"loads" integer NOT NULL,
	"num" double precision NOT NULL,
	"den" double precision NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "day_sums_change_once_a_record" PRIMARY KEY("site","day","method","measure","ledger_index")
);
--> statement-breakpoint
CREATE TABLE "month_sums" (
	"month" text NOT NULL,
	"site" integer NOT NULL,
	"method" text NOT NULL,
	"measure" text NOT NULL,
	"days" integer NOT NULL,
	"batches" integer NOT NULL,
	"loads" integer NOT NULL,
	"num" double precision NOT NULL,
	"den" double precision NOT NULL,
	"num2" double precision NOT NULL,
	"den2" double precision NOT NULL,
	"num_den" double precision NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "month_sums_change_once_a_record" PRIMARY KEY("month","site","method","measure","ledger_index")
);
--> statement-breakpoint
CREATE INDEX "batch_revisions_by_day" ON "batch_revisions" USING btree ("site","day");--> statement-breakpoint
CREATE INDEX "batch_revisions_by_number" ON "batch_revisions" USING btree ("site","number");--> statement-breakpoint
CREATE INDEX "batch_revisions_in_order_of_days" ON "batch_revisions" USING brin ("day");--> statement-breakpoint
CREATE INDEX "batch_revisions_in_order_of_records" ON "batch_revisions" USING brin ("ledger_index");--> statement-breakpoint
CREATE INDEX "files_by_content" ON "files" USING btree ("sha256");--> statement-breakpoint
CREATE INDEX "files_by_site" ON "files" USING btree ("site","ledger_index");--> statement-breakpoint
CREATE INDEX "fuel_entries_by_day" ON "fuel_entries" USING btree ("site","day");--> statement-breakpoint
CREATE INDEX "sessions_by_person" ON "sessions" USING btree ("person");--> statement-breakpoint
CREATE INDEX "row_batches_by_batch" ON "row_batches" USING btree ("batch");--> statement-breakpoint
CREATE INDEX "row_batches_in_order_of_records" ON "row_batches" USING brin ("ledger_index");--> statement-breakpoint
CREATE INDEX "rows_that_wait" ON "rows" USING btree ("site") WHERE "rows"."fate" = 'held';--> statement-breakpoint
CREATE INDEX "rows_in_order_of_records" ON "rows" USING brin ("ledger_index");--> statement-breakpoint
CREATE INDEX "sealed_by_record" ON "sealed" USING btree ("ledger_index");--> statement-breakpoint
CREATE INDEX "day_sums_in_order_of_records" ON "day_sums" USING brin ("ledger_index");--> statement-breakpoint
CREATE INDEX "month_sums_in_order_of_records" ON "month_sums" USING brin ("ledger_index");