//! What can be asked of the desk.

use axum::Router;
use axum::body::Bytes;
use axum::extract::rejection::BytesRejection;
use axum::extract::{DefaultBodyLimit, Path, RawQuery, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::middleware::from_fn_with_state;
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};

use crate::form::{self, Form};
use crate::mend::Wishes;
use crate::numbers::{NotANumber, numbers, with_numbers};
use crate::pages::{self, DeskPage, Kind, ShelfList, WorkParts};
use crate::work::{self, Product};
use crate::{assets, guard, state};

/// The most characters of a question; the longest in the textbooks have some 1,500.
pub(crate) const LONGEST_QUESTION: usize = 20_000;

/// The most bytes of a request.
const LARGEST_REQUEST: usize = 256 * 1024;

/// The desk as a service, for a server or for tests.
pub fn router(state: state::State) -> Router {
    Router::new()
        .route("/", get(blank).post(whole))
        .route("/shelf", get(shelf))
        .route("/shelf/{name}", get(sample))
        .route("/work", post(work_parts))
        .route("/pdf", post(pdf))
        .route("/desk.js", get(assets::script))
        .route("/desk.css", get(assets::styles))
        .route("/icon.svg", get(assets::icon))
        .route("/fonts/{file}", get(assets::font))
        .fallback(nothing)
        .method_not_allowed_fallback(not_so)
        .layer(DefaultBodyLimit::max(LARGEST_REQUEST))
        .layer(from_fn_with_state(state.clone(), guard::guard))
        .with_state(state)
}

/// The desk with nothing on it.
async fn blank(State(desk): State<state::State>) -> Response {
    let product = work::product(String::new(), desk.settings(Vec::new())).await;
    desk_page(&desk, product, Written::default(), "", None)
}

/// The desk with a question from the shelf.
async fn sample(State(desk): State<state::State>, Path(name): Path<String>) -> Response {
    let Some(sample) = desk.shelf.sample(&name).cloned() else {
        let says = "There is no question of this name on the shelf.";
        return pages::notice(StatusCode::NOT_FOUND, "Not on the shelf", says);
    };
    let product = work::product(sample.text.clone(), desk.settings(Vec::new())).await;
    let written = Written { question: sample.text, ..Written::default() };
    let title = sample.title;
    desk_page(&desk, Product { title, ..product }, written, "", Some(&name))
}

/// The shelf's list alone, for the script.
async fn shelf(State(desk): State<state::State>, RawQuery(query): RawQuery) -> Response {
    let query = Form::read(query.unwrap_or_default().as_bytes()).unwrap_or_default();
    pages::page(&ShelfList { groups: pages::groups(&desk.shelf, query.get("find"), None), own: false })
}

/// The desk with the question that was sent: how it all works without script.
async fn whole(State(desk): State<state::State>, headers: HeaderMap, body: Sent) -> Response {
    let form = match read(&headers, body) {
        Ok(form) => form,
        Err(why) => return *why,
    };
    let written = Written::of(&form);
    let product =
        work::product(written.question.clone(), desk.settings(written.wishes.ignored.clone())).await;
    desk_page(&desk, product, written, form.get("find"), None)
}

/// The parts of the desk that follow the question, for the script.
async fn work_parts(State(desk): State<state::State>, headers: HeaderMap, body: Sent) -> Response {
    let form = match read(&headers, body) {
        Ok(form) => form,
        Err(why) => return *why,
    };
    let mut question = form.get("question").to_owned();
    let wishes = Wishes::of(&form, &mut question);
    let rows = pages::rows(&question, &[], &[]);
    let settings = desk.settings(wishes.ignored.clone());
    let Product { title, outcome, troubles, leaf } = work::product(question, settings).await;
    pages::page(&WorkParts { title, outcome, troubles, wishes, rows, leaf })
}

/// The worked page as a PDF to keep.
async fn pdf(State(desk): State<state::State>, headers: HeaderMap, body: Sent) -> Response {
    let written = match read(&headers, body) {
        Ok(form) => Written::of(&form),
        Err(why) => return *why,
    };
    if written.question.trim().is_empty() {
        let says = "There is no question to put on paper yet. Write one first.";
        return pages::notice(StatusCode::UNPROCESSABLE_ENTITY, "No question", says);
    }
    match work::pdf(written.question, desk.settings(written.wishes.ignored)).await {
        Ok((bytes, document)) => {
            let disposition = format!("attachment; filename=\"{}.pdf\"", file_name(&document.title));
            let headers = [
                (header::CONTENT_TYPE, "application/pdf".to_owned()),
                (header::CONTENT_DISPOSITION, disposition),
            ];
            (headers, bytes).into_response()
        }
        Err(why) => pages::notice(StatusCode::INTERNAL_SERVER_ERROR, "No PDF", &why),
    }
}

async fn nothing() -> Response {
    pages::notice(StatusCode::NOT_FOUND, "No such page", "The desk has no page at this address.")
}

async fn not_so() -> Response {
    pages::notice(StatusCode::METHOD_NOT_ALLOWED, "Not in this way", "This address is not asked in this way.")
}

type Sent = Result<Bytes, BytesRejection>;

/// Reads what was sent, or answers with what is wrong with it.
fn read(headers: &HeaderMap, body: Sent) -> Result<Form, Box<Response>> {
    let body = body.map_err(|why| match why.into_response().status() {
        StatusCode::PAYLOAD_TOO_LARGE => Box::new(pages::too_long()),
        status => refused(status, "Not received", "What was sent did not arrive whole. Send it again."),
    })?;
    let kind = headers.get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or_default();
    let kind = kind.split(';').next().unwrap_or_default().trim();
    let form = match kind {
        "application/x-www-form-urlencoded" => Form::read(&body),
        "text/plain" => form::plain(body.to_vec()).map(Form::question),
        _ => {
            let says = "The desk reads forms and plain text only.";
            return Err(refused(StatusCode::UNSUPPORTED_MEDIA_TYPE, "Not a form", says));
        }
    };
    let form = form.map_err(|form::NotText| {
        let says =
            "The question is not text in UTF-8, so it can't be read safely. Copy it again as plain text.";
        refused(StatusCode::BAD_REQUEST, "Not text", says)
    })?;
    if form.get("question").chars().count() > LONGEST_QUESTION {
        return Err(Box::new(pages::too_long()));
    }
    Ok(form)
}

fn refused(status: StatusCode, heading: &str, says: &str) -> Box<Response> {
    Box::new(pages::notice(status, heading, says))
}

/// The question as the teacher left it, with what was written in the inputs for its numbers.
#[derive(Default)]
struct Written {
    question: String,
    values: Vec<String>,
    wrong: Vec<(usize, NotANumber)>,
    wishes: Wishes,
}

impl Written {
    /// Without script the inputs arrive together with the text. They belong to the text that the page was
    /// made for; where the teacher changed the text as well, a changed number goes to the same place in the new text.
    fn of(form: &Form) -> Written {
        let mut question = form.get("question").to_owned();
        let sent = question.clone();
        let wishes = Wishes::of(form, &mut question);
        if question != sent {
            // A button changed the text: the inputs belong to the text before.
            return Written { question, wishes, ..Written::default() };
        }
        let before = numbers(form.get("numbered"));
        let now = numbers(&question);
        let sent: Vec<&str> = form.all("number").collect();
        if before.len() != now.len() || sent.len() != now.len() {
            return Written { question, wishes, ..Written::default() };
        }
        let values: Vec<&str> = before
            .iter()
            .zip(&now)
            .zip(&sent)
            .map(|((before, now), sent)| if before.text == *sent { now.text.as_str() } else { sent })
            .collect();
        match with_numbers(&question, &values) {
            Ok(question) => Written { question, wishes, ..Written::default() },
            Err(wrong) => {
                let values = values.into_iter().map(str::to_owned).collect();
                Written { question, values, wrong, wishes }
            }
        }
    }
}

fn desk_page(
    desk: &state::State,
    product: Product,
    written: Written,
    find: &str,
    open: Option<&str>,
) -> Response {
    let values: Vec<&str> = written.values.iter().map(String::as_str).collect();
    let Product { title, mut outcome, troubles, leaf } = product;
    if let Some((_, why)) = written.wrong.first() {
        outcome = pages::Outcome::new(Kind::Refused, format!("One of the numbers can't be used. {why}"));
    }
    pages::page(&DeskPage {
        title,
        rows: pages::rows(&written.question, &values, &written.wrong),
        question: written.question,
        find: find.to_owned(),
        groups: pages::groups(&desk.shelf, find, open),
        own: open.is_none(),
        outcome,
        troubles,
        wishes: written.wishes,
        leaf,
        longest: LONGEST_QUESTION,
    })
}

/// A title as a file name: small letters, figures and hyphens.
fn file_name(title: &str) -> String {
    let spaced: String =
        title.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { ' ' }).collect();
    let name = spaced.split_whitespace().take(8).collect::<Vec<_>>().join("-");
    if name.is_empty() { "worked-page".to_owned() } else { name }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(body: &str) -> Written {
        Written::of(&Form::read(body.as_bytes()).unwrap())
    }

    #[test]
    fn a_changed_number_goes_into_the_text() {
        let sent = written("question=3+kg+and+5+kg&numbered=3+kg+and+5+kg&number=4&number=5");
        assert_eq!(sent.question, "4 kg and 5 kg");
    }

    #[test]
    fn a_changed_text_keeps_its_changes_beside_a_changed_number() {
        let sent = written("question=masses+3+kg,+6+kg&numbered=3+kg+and+5+kg&number=4&number=5");
        assert_eq!(sent.question, "masses 4 kg, 6 kg");
        let sent = written("question=only+3+kg&numbered=3+kg+and+5+kg&number=4&number=5");
        assert_eq!(sent.question, "only 3 kg");
    }

    #[test]
    fn a_wrong_number_leaves_the_text_and_stays_in_its_input() {
        let sent = written("question=3+kg&numbered=3+kg&number=three");
        assert_eq!(sent.question, "3 kg");
        assert_eq!(sent.values, ["three"]);
        assert_eq!(sent.wrong, [(0, NotANumber::Other)]);
    }

    #[test]
    fn a_file_name_is_safe_in_a_header() {
        assert_eq!(file_name("Two \"crates\"\r\non a rope"), "two-crates-on-a-rope");
        assert_eq!(file_name("…"), "worked-page");
    }
}
