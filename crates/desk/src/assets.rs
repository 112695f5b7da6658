//! Script, styles and typefaces, all carried by the program.

use std::sync::OnceLock;

use axum::extract::Path;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};

use crate::pages;

/// The desk's own script.
pub(crate) async fn script() -> impl IntoResponse {
    ([(header::CONTENT_TYPE, "text/javascript; charset=utf-8")], include_str!("../assets/desk.js"))
}

/// Typefaces, the look of a leaf, the look of the desk. The faces are only read
/// when a page asks for them, so that an idle desk stays small.
pub(crate) async fn styles() -> impl IntoResponse {
    static STYLES: OnceLock<String> = OnceLock::new();
    let styles = STYLES.get_or_init(|| {
        [&paper::font_faces("/fonts/"), paper::stylesheet(), include_str!("../assets/desk.css")].join("\n")
    });
    ([(header::CONTENT_TYPE, "text/css; charset=utf-8")], styles.as_str())
}

/// The sign of the desk in a browser's tab: a taut line between two bodies.
pub(crate) async fn icon() -> impl IntoResponse {
    ([(header::CONTENT_TYPE, "image/svg+xml")], include_str!("../assets/icon.svg"))
}

/// A typeface by its file name.
pub(crate) async fn font(Path(file): Path<String>) -> Response {
    match paper::fonts().iter().find(|font| font.file == file) {
        Some(font) => {
            let headers =
                [(header::CONTENT_TYPE, font.mime), (header::CACHE_CONTROL, "private, max-age=86400")];
            (headers, font.bytes).into_response()
        }
        None => {
            pages::notice(StatusCode::NOT_FOUND, "No such typeface", "The desk has no typeface of that name.")
        }
    }
}
