//! The desk over HTTP, without a browser: who is let in, what pages may do, what becomes of bad input.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::sync::LazyLock;

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{HeaderMap, Request, StatusCode, header};
use desk::{Shelf, State, router};
use tower::ServiceExt;

const HOST: &str = "127.0.0.1:7741";
const FORM: &str = "application/x-www-form-urlencoded";
const TRAILER: &str = include_str!("../../../shelf/01-timber-trailer.txt");

fn desk() -> Router {
    static SHELF: LazyLock<Shelf> = LazyLock::new(Shelf::carried);
    router(State::new(SHELF.clone(), HOST.parse().unwrap()))
}

struct Answer {
    status: StatusCode,
    headers: HeaderMap,
    body: Vec<u8>,
}

impl Answer {
    fn text(&self) -> &str {
        std::str::from_utf8(&self.body).unwrap()
    }
    fn header(&self, name: header::HeaderName) -> &str {
        self.headers.get(name).map(|value| value.to_str().unwrap()).unwrap_or_default()
    }
}

async fn send(request: Request<Body>) -> Answer {
    let answer = desk().oneshot(request).await.unwrap();
    let (parts, body) = answer.into_parts();
    let body = to_bytes(body, usize::MAX).await.unwrap().to_vec();
    Answer { status: parts.status, headers: parts.headers, body }
}

async fn get(path: &str) -> Answer {
    send(Request::get(path).header(header::HOST, HOST).body(Body::empty()).unwrap()).await
}

async fn post(path: &str, kind: &str, body: impl Into<Vec<u8>>) -> Answer {
    let request = Request::post(path).header(header::HOST, HOST).header(header::CONTENT_TYPE, kind);
    send(request.body(Body::from(body.into())).unwrap()).await
}

/// `question=...` as a browser sends it (WHATWG URL standard, the urlencoded serializer): line ends as CR LF.
fn form(question: &str) -> String {
    let mut out = String::from("question=");
    for byte in question.replace('\n', "\r\n").bytes() {
        out.push_str(&format!("%{byte:02X}"));
    }
    out
}

#[tokio::test]
async fn a_question_is_answered_on_a_whole_page_and_as_parts() {
    // 0.75 m s^-2 and 1300 N: the closed form beside the question on the shelf.
    for path in ["/", "/work"] {
        let page = post(path, FORM, form(TRAILER)).await;
        assert_eq!(page.status, StatusCode::OK);
        assert!(page.text().contains("(a) 0.75") && page.text().contains("(b) 1300 N"), "{}", page.text());
        assert_eq!(page.text().contains("<html"), path == "/");
    }
}

#[tokio::test]
async fn the_text_comes_back_in_its_place_as_it_was() {
    let odd = "\n  <b>\"two\" lines</b>\n&amp; </textarea> end  ";
    let page = post("/", FORM, form(odd)).await;
    // HTML drops one line end right after the tag (HTML standard, "textarea"), so the page puts one there.
    let kept = "spellcheck=\"true\">\n\n  &#60;b&#62;&#34;two&#34; lines&#60;/b&#62;\n&#38;amp; &#60;/textarea&#62; end  </textarea>";
    assert!(page.text().contains(kept), "{}", page.text());
}

#[tokio::test]
async fn every_question_of_the_shelf_opens() {
    for sample in Shelf::carried().samples() {
        let page = get(&format!("/shelf/{}", sample.name)).await;
        assert_eq!(page.status, StatusCode::OK, "{}", sample.name);
        assert!(page.text().contains("aria-current=\"page\""), "{}", sample.name);
        assert!(page.text().contains(&format!("<title>{}", sample.title)), "{}", sample.name);
    }
    let none = get("/shelf/no-such-question").await;
    assert_eq!(none.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn the_shelf_is_searched_by_words() {
    let list = get("/shelf?find=timber+trailer").await;
    assert!(list.text().contains("/shelf/01-timber-trailer"), "{}", list.text());
    assert!(!list.text().contains("/shelf/07-divers-lift"), "{}", list.text());
    assert!(get("/shelf?find=%FF%00zzz").await.status.is_success());
}

#[tokio::test]
async fn strangers_are_turned_away() {
    let ask = |host: &str| Request::get("/").header(header::HOST, host).body(Body::empty()).unwrap();
    assert_eq!(send(ask("marram.example:7741")).await.status, StatusCode::FORBIDDEN);
    assert_eq!(send(ask("127.0.0.1:80")).await.status, StatusCode::FORBIDDEN);
    assert_eq!(send(ask("localhost:7741")).await.status, StatusCode::OK);
    let nameless = Request::get("/").body(Body::empty()).unwrap();
    assert_eq!(send(nameless).await.status, StatusCode::FORBIDDEN);

    let from = |origin: &str| {
        let request = Request::post("/work").header(header::HOST, HOST).header(header::ORIGIN, origin);
        request.header(header::CONTENT_TYPE, FORM).body(Body::from(form(TRAILER))).unwrap()
    };
    assert_eq!(send(from("http://127.0.0.1:7741")).await.status, StatusCode::OK);
    for origin in ["http://marram.example", "null", "https://127.0.0.1:7741", "http://127.0.0.1:7742"] {
        assert_eq!(send(from(origin)).await.status, StatusCode::FORBIDDEN, "{origin}");
    }
}

#[tokio::test]
async fn every_answer_says_what_a_page_may_do() {
    let pages = [
        get("/").await,
        get("/nowhere").await,
        get("/desk.js").await,
        post("/work", FORM, form(TRAILER)).await,
        post("/nowhere", FORM, "").await,
        send(Request::get("/").header(header::HOST, "x").body(Body::empty()).unwrap()).await,
    ];
    for page in &pages {
        let policy = page.header(header::CONTENT_SECURITY_POLICY);
        assert!(policy.starts_with("default-src 'none'"), "{policy}");
        assert!(!policy.contains("unsafe") && !policy.contains("http") && !policy.contains('*'), "{policy}");
        assert_eq!(page.header(header::X_CONTENT_TYPE_OPTIONS), "nosniff");
        assert_eq!(page.header(header::REFERRER_POLICY), "same-origin");
    }
}

#[tokio::test]
async fn nothing_in_a_page_needs_more_than_the_policy_allows() {
    for page in
        [get("/").await, get("/shelf/01-timber-trailer").await, post("/work", FORM, form("Zyx?")).await]
    {
        let text = page.text();
        assert!(!text.contains(" style=\"") && !text.contains("<style"), "inline style");
        assert!(!text.contains(" onclick") && !text.contains("javascript:"), "inline script");
        let scripts: Vec<&str> =
            text.match_indices("<script").filter_map(|(at, _)| text.get(at..at + 45)).collect();
        assert!(scripts.iter().all(|script| script.contains("src=\"/desk.js\"")), "{scripts:?}");
        let outside = text.replace("http://www.w3.org/", "");
        assert!(!outside.contains("http://") && !outside.contains("https://"), "an address outside");
    }
}

#[tokio::test]
async fn styles_and_typefaces_come_from_the_desk() {
    let styles = get("/desk.css").await;
    assert_eq!(styles.header(header::CONTENT_TYPE), "text/css; charset=utf-8");
    let mut fonts = 0;
    for piece in styles.text().split("url(\"").skip(1) {
        let path = piece.split('"').next().unwrap();
        let font = get(path).await;
        assert_eq!(font.status, StatusCode::OK, "{path}");
        assert!(font.header(header::CONTENT_TYPE).starts_with("font/"), "{path}");
        fonts += 1;
    }
    assert!(fonts >= 2, "{fonts}");
    assert_eq!(get("/fonts/none.otf").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn text_that_is_not_utf_8_is_refused_in_words() {
    for (kind, body) in
        [(FORM, b"question=%FF%FE".to_vec()), (FORM, vec![0xff; 99]), ("text/plain", vec![0xc3, 0x28])]
    {
        for path in ["/", "/work", "/pdf"] {
            let page = post(path, kind, body.clone()).await;
            assert_eq!(page.status, StatusCode::BAD_REQUEST);
            assert!(page.text().contains("not text in UTF-8"), "{}", page.text());
        }
    }
}

#[tokio::test]
async fn noise_by_the_megabyte_is_too_long() {
    let mut seed = 7_u32;
    let noise: Vec<u8> = (0..1 << 20)
        .map(|_| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            seed.to_be_bytes()[0]
        })
        .collect();
    for path in ["/", "/work", "/pdf"] {
        let page = post(path, FORM, noise.clone()).await;
        assert_eq!(page.status, StatusCode::PAYLOAD_TOO_LARGE);
        assert!(page.text().contains("at most 20000 characters"), "{}", page.text());
    }
    let long = post("/work", FORM, form(&"x".repeat(20_001))).await;
    assert_eq!(long.status, StatusCode::PAYLOAD_TOO_LARGE);
}

#[tokio::test]
async fn the_longest_question_allowed_is_worked_or_refused() {
    for stuff in ["mass 3 kg ", "(((((", "a string over a pulley. ", "9", "²√°–"] {
        let text: String = stuff.chars().cycle().take(20_000).collect();
        let page = post("/work", FORM, form(&text)).await;
        assert_eq!(page.status, StatusCode::OK);
        assert!(page.text().contains("class=\"outcome refused\""), "{stuff}");
    }
}

#[tokio::test]
async fn nothing_sent_is_no_question_yet() {
    for body in ["", "question=", "question=+%0D%0A", "other=1"] {
        let page = post("/work", FORM, body).await;
        assert_eq!(page.status, StatusCode::OK);
        assert!(page.text().contains("No question yet."), "{}", page.text());
        assert_eq!(post("/pdf", FORM, body).await.status, StatusCode::UNPROCESSABLE_ENTITY);
    }
}

#[tokio::test]
async fn other_ways_of_asking_are_named() {
    assert_eq!(get("/work").await.status, StatusCode::METHOD_NOT_ALLOWED);
    assert_eq!(post("/shelf", FORM, "").await.status, StatusCode::METHOD_NOT_ALLOWED);
    assert_eq!(post("/work", "application/json", "{}").await.status, StatusCode::UNSUPPORTED_MEDIA_TYPE);
    assert_eq!(get("/shelf/%2e%2e%2fCargo").await.status, StatusCode::NOT_FOUND);
    let page = get("/nowhere").await;
    assert_eq!(page.status, StatusCode::NOT_FOUND);
    assert!(page.text().contains("To the desk"), "{}", page.text());
}

#[tokio::test]
async fn a_number_changed_without_script_goes_into_the_text() {
    let sent = format!(
        "{}&{}&number=1800&number=1200&number=500&number=400&number=3900",
        form(TRAILER),
        form(TRAILER).replacen("question", "numbered", 1)
    );
    let page = post("/", FORM, sent.clone()).await;
    // By hand, as beside the question on the shelf: (3900 - 900)/3000 = 1 and 400 + 1200*1 = 1600.
    assert!(page.text().contains("driving force of 3900 N"), "{}", page.text());
    assert!(page.text().contains("(a) 1 m s⁻²; (b) 1600 N"), "{}", page.text());

    let page = post("/", FORM, sent.replace("3900", "lots")).await;
    assert!(page.text().contains("driving force of 3150 N"), "{}", page.text());
    assert!(page.text().contains("value=\"lots\"") && page.text().contains("Write a number without a sign"));
}

/// A floor that the reader does not know, and a word that it does not.
const GREASY: &str = "A crate of mass 5 kg is pulled along a horizontal floor by a horizontal force of 20 N. The floor is \
    greasy. Find the acceleration of the crate.";

/// One more field of a form.
fn field(name: &str, value: &str) -> String {
    form(value).replacen("question", &format!("&{name}"), 1)
}

#[tokio::test]
async fn a_suggestion_is_taken_without_script_and_taken_back() {
    let page = post("/", FORM, form(GREASY)).await;
    assert!(
        page.text().contains("Write “smooth”") && page.text().contains("Ignore “greasy”"),
        "{}",
        page.text()
    );
    let value = page.text().split("name=\"mend\" value=\"").nth(1).unwrap().split('"').next().unwrap();
    assert!(value.ends_with(":smooth"), "{value}");

    let sent = form(GREASY) + &field("numbered", GREASY);
    let mended = post("/", FORM, sent + &field("mend", value)).await;
    // By hand: 20/5 = 4.
    assert!(mended.text().contains("The floor is smooth."), "{}", mended.text());
    assert!(mended.text().contains("</strong> 4 m s⁻²"), "{}", mended.text());

    let smooth = GREASY.replace("greasy", "smooth");
    let sent = form(&smooth) + &field("numbered", &smooth) + &field("before", GREASY);
    let undone = post("/", FORM, sent + &field("undo", "1")).await;
    assert!(
        undone.text().contains("The floor is greasy. Find the acceleration of the crate.</textarea>"),
        "{}",
        undone.text()
    );
}

#[tokio::test]
async fn a_phrase_is_ignored_at_the_teachers_wish_and_the_page_says_it() {
    let question = GREASY.replace("a horizontal floor", "a smooth horizontal floor");
    let page = post("/", FORM, form(&question) + &field("ignore", "greasy")).await;
    assert!(page.text().contains("</strong> 4 m s⁻²"), "{}", page.text());
    assert!(page.text().contains("name=\"ignored\" value=\"greasy\""), "the next page knows it too");
    assert!(page.text().contains("Ignored at your wish: “greasy”"));
    assert!(page.text().contains("[ignored]"), "it is marked on the worked page");

    let again =
        post("/", FORM, form(&question) + &field("ignored", "greasy") + &field("heed", "greasy")).await;
    assert!(again.text().contains("class=\"outcome refused\""));
    // What tells something is not ignored in silence.
    let clash = post("/work", FORM, form(TRAILER) + &field("ignore", "3150 N")).await;
    assert!(clash.text().contains("class=\"outcome refused\""), "{}", clash.text());
    let pdf = post("/pdf", FORM, form(&question) + &field("ignored", "greasy")).await;
    assert_eq!(pdf.header(header::CONTENT_TYPE), "application/pdf");
}

#[tokio::test]
async fn the_page_is_taken_away_as_pdf() {
    let page = post("/pdf", FORM, form(TRAILER)).await;
    assert_eq!(page.status, StatusCode::OK);
    assert_eq!(page.header(header::CONTENT_TYPE), "application/pdf");
    assert!(page.header(header::CONTENT_DISPOSITION).starts_with("attachment; filename=\""));
    assert!(page.body.starts_with(b"%PDF-"), "PDF begins with its version (ISO 32000-1, 7.5.2)");
}
