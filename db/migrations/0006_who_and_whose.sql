-- What somebody is to the programme, as last decided: whoever has signed in may know it of whoever sent or answered. No name.
CREATE FUNCTION evendry_role_of(who uuid) RETURNS text LANGUAGE sql STABLE SECURITY DEFINER SET search_path = ''
  AS $$ SELECT p.role FROM public.people p WHERE p.id = who AND public.evendry_role() IS NOT NULL ORDER BY p.ledger_index DESC LIMIT 1 $$;
--> statement-breakpoint
-- Logs of the programme that have rows of a site: of these its lead may know when they came and what became of them, not
-- what they are called or hold beside the own rows.
CREATE FUNCTION evendry_programme_logs(of_site integer, before bigint, most integer)
  RETURNS TABLE (file uuid, arrived_at timestamptz, came_by text, ledger_index bigint, sent_by uuid, state text)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = ''
  AS $$ SELECT f.id, f.arrived_at, f.came_by, f.ledger_index, f.sent_by,
          CASE WHEN EXISTS (SELECT 1 FROM public.file_states w WHERE w.file = f.id AND w.state = 'withdrawn') THEN 'withdrawn' ELSE 'counted' END
        FROM public.files f
        WHERE f.site IS NULL AND f.ledger_index < before
          AND (public.evendry_sees_all() OR of_site = ANY (public.evendry_sites()))
          AND EXISTS (SELECT 1 FROM public.file_states s WHERE s.file = f.id AND s.state = 'counted' AND s.detail -> 'sites' @> to_jsonb(of_site))
        ORDER BY f.ledger_index DESC LIMIT most $$;
--> statement-breakpoint
-- When some records of logs were written, by whom and by which command; of a site's to those who may see the site.
CREATE FUNCTION evendry_records(indexes bigint[]) RETURNS TABLE (index bigint, at timestamptz, person uuid, command text)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = ''
  AS $$ SELECT l.index, l.at, l.person, l.command FROM public.ledger l WHERE l.index = ANY (indexes) AND public.evendry_role() IS NOT NULL
        AND l.command IN ('arrive', 'type', 'send', 'settle', 'withdraw')
        AND (public.evendry_sees_all() OR l.site IS NULL OR l.site = ANY (public.evendry_sites())) $$;
