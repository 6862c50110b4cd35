/* A works' day with the log through the program: remnants into nests and back, pages, labels, and files that are not well. */
#include "program.h"

typedef struct works {
    sw_test *t;
    const char *folder, *log;
} works;

/* A shell command; $L in it is the log, $D its folder. */
static outcome done(const works *w, const char *command)
{
    sw_test *t = w->t;
    return shell(t, sw_text_format(&t->run, t->run.keep, "L='%s'; D='%s'; %s", w->log, w->folder, command));
}

/* The program with these words. */
static outcome told(const works *w, const char *words)
{
    return done(w, sw_text_format(&w->t->run, w->t->run.keep, "'%s' %s 2>&1", SW_PROGRAM, words));
}

static void tell(const works *w, const char *words, int code, const char *part)
{
    (void)ended(w->t, words, told(w, words), code, part);
}

/* The command, which must succeed and print this. */
static void manage(const works *w, const char *command, const char *part)
{
    (void)ended(w->t, command, done(w, command), 0, part);
}

static works open_works(sw_test *t)
{
    static const char *const lines[] = {
        "design name=A-3 part=stove text=@demo/a.stove.lua",
        "batch name=B-7 design=A-3 stoves=2",
        "sheet name=P-4 heat=4711 material=S235 thickness_mm=4 length_mm=3000 width_mm=1500",
        "sheet name=P-3 heat=4712 material=S235 thickness_mm=3 length_mm=3000 width_mm=1500",
        "sheet name=P-2 heat=4713 material=S235 thickness_mm=2 length_mm=3000 width_mm=1500",
        "sheet name=P-6 heat=4714 material=S235 thickness_mm=6 length_mm=2000 width_mm=1000",
        "remnant name=+R-1 sheet=P-4 length_mm=1200 width_mm=900",
        "move remnant=+R-1 way=in place=rack-2",
        "serial number=S-0001 batch=B-7",
        "serial number=S-0002 batch=B-7",
        "inspection serial=S-0001 feature=door-gap value=2.4 low=1 high=2 unit=mm",
        "work batch=B-7 operation=weld planned_s=3300 actual_s=3525",
        "house name=H-1 'where=<north>' flue=holds"};
    works w = {t, folder_made(t), NULL};
    w.log = sw_text_format(&t->run, t->run.keep, "%s/works.log", w.folder);
    tell(&w, "log $L new", 0, "made");
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        tell(&w, sw_text_format(&t->run, t->run.keep, "log $L add %s by=ab", lines[i]), 0, "recorded");
    return w;
}

static void close_works(const works *w)
{
    clear_away(w->t, w->folder);
}

static void a_remnant_in_stock_is_cut_and_what_is_left_goes_into_stock(sw_test *t)
{
    works w = open_works(t);
    tell(&w, "nest demo/a.stove.lua --works demo/demo.works.lua --batch 2 --log $L --out $D/cut.csv", 0, "Nests");
    manage(&w, "cat $D/cut.csv", ",'+R-1,"); /* a text to a spreadsheet, which would run +R-1 as a formula */
    tell(&w, "log $L cut $D/cut.csv batch=B-7 by=ab", 2, "which sheet was it?");
    tell(&w, "log $L stock", 0, "+R-1"); /* all or nothing */
    /* each line gets the sheet of its thickness, as who took it would write */
    manage(&w, "sed -i -E 's/^([2346])( mm S235,[0-9]+,[^,]*,S235,[2346],),/\\1\\2P-\\1,/' $D/cut.csv", "");
    manage(&w, "sed -E 's/P-2/P-3/' $D/cut.csv > $D/wrong.csv", "");
    tell(&w, "log $L cut $D/wrong.csv batch=B-7 by=ab", 2, "the list cuts 2 mm S235");
    tell(&w, "log $L cut $D/cut.csv batch=B-7 by=ab", 0, "sheets cut");
    outcome o = told(&w, "log $L stock");
    sw_true(t, strstr(o.text, "+R-1 ") == NULL);
    sw_contains(t, o.text, "R-B-7-");
    tell(&w, "log $L list moves remnant=+R-1 way=out", 0, "batch=B-7");
    tell(&w, "log $L cut $D/cut.csv batch=B-7 by=ab", 2, "is not in stock");
    tell(&w, "log $L stats", 0, "Scrap:");
    tell(&w, "nest demo/a.stove.lua --works demo/demo.works.lua --log $D/none.log", 3, "is not there");
    close_works(&w);
}

static const char *text_of(const works *w, const char *name)
{
    const char *bytes = "";
    size_t length = 0;
    sw_ok(w->t, sw_file_read(&w->t->run, sw_text_format(&w->t->run, w->t->run.keep, "%s/%s", w->folder, name), 64 << 20,
                             &bytes, &length));
    return bytes;
}

static void a_stoves_history_and_the_works_figures_are_pages(sw_test *t)
{
    works w = open_works(t);
    tell(&w, "log $L add delivery serial=S-0001 house=H-1 to=fitter by=ab", 0, "recorded");
    tell(&w, "log $L history S-0001 --out $D/h.html", 0, "written");
    tell(&w, "log $L history S-0001 --out $D/h.pdf", 0, "written");
    tell(&w, "log $L stats --out $D/s.html", 0, "written");
    tell(&w, "log $L stats --out $D/s.pdf", 0, "written");
    const char *page = text_of(&w, "h.html");
    sw_contains(t, page, "outside its limits");
    sw_contains(t, page, "&lt;north&gt;");
    sw_contains(t, text_of(&w, "s.html"), "107 %");
    sw_true(t, strncmp(text_of(&w, "h.pdf"), "%PDF-", 5) == 0 && strncmp(text_of(&w, "s.pdf"), "%PDF-", 5) == 0);
    tell(&w, "log $L history S-0001 --out $D/h.doc", 2, "a .html or a .pdf");
    tell(&w, "log $L history S-9 --out $D/h.html", 2, "S-9");
    tell(&w, "log $L history S-0001 --out $D/no/h.html", 3, "No such file");
    close_works(&w);
}

static void labels_are_a_page_each(sw_test *t)
{
    works w = open_works(t);
    tell(&w, "log $L label batch=B-7 --out $D/l.pdf", 0, "labels written");
    sw_true(t, strncmp(text_of(&w, "l.pdf"), "%PDF-", 5) == 0);
    manage(&w, "echo pages $(grep -aoF '/Type/Page/' $D/l.pdf | wc -l)", "pages 2\n"); /* the batch has two */
    tell(&w, "log $L label S-0001 S-9 --out $D/l.pdf", 2, "is no serial number");
    tell(&w, "log $L label batch=B-9 --out $D/l.pdf", 2, "is no batch");
    close_works(&w);
}

static void a_file_that_is_not_well_is_told_and_stays_as_it_was(sw_test *t)
{
    static const struct {
        int code;
        const char *harm, *part;
    } cases[] = {
        {3, "printf 'hello, this is a letter and no log at all' > $D/h.log", "is no log"},
        {2, "printf '\\377\\377' | dd of=$D/h.log bs=1 seek=60 conv=notrunc 2>/dev/null", "use the newer program"},
        {3, "truncate -s 8192 $D/h.log", "is damaged"},
        {3, "dd if=/dev/zero of=$D/h.log bs=4096 seek=9 count=1 conv=notrunc 2>/dev/null", "is damaged"},
    };
    works w = open_works(t);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        manage(&w, sw_text_format(&t->run, t->run.keep, "cp $L $D/h.log; %s; cp $D/h.log $D/before", cases[i].harm),
               "");
        tell(&w, "log $D/h.log add serial number=S-3 batch=B-7 by=ab", cases[i].code, cases[i].part);
        tell(&w, "log $D/h.log history S-0001", cases[i].code, cases[i].part);
        manage(&w, "cmp $D/h.log $D/before && echo untouched", "untouched");
    }
    close_works(&w);
}

static void a_full_disk_is_told(sw_test *t)
{
    works w = open_works(t);
    manage(&w,
           "(echo number,batch,by,note; seq 1 3000 | sed 's/.*/N-&,B-7,ab,a note that takes some room in the file and "
           "on the disk/') > $D/t.csv",
           "");
    const char *import = "ulimit -f 300; trap '' XFSZ; '" SW_PROGRAM "' log $L import serials $D/t.csv 2>&1";
    ended(t, import, done(&w, import), 3, "nothing of this was recorded");
    outcome o = told(&w, "log $L list serials");
    sw_contains(t, o.text, "S-0002");
    sw_true(t, strstr(o.text, "N-1") == NULL);
    tell(&w, "log $L check", 0, "sound");
    close_works(&w);
}

SW_TESTS(SW_CASE(a_remnant_in_stock_is_cut_and_what_is_left_goes_into_stock),
         SW_CASE(a_stoves_history_and_the_works_figures_are_pages), SW_CASE(labels_are_a_page_each),
         SW_CASE(a_file_that_is_not_well_is_told_and_stays_as_it_was), SW_CASE(a_full_disk_is_told))
