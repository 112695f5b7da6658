//! Who may speak to the desk, and what its pages may do.
//!
//! The desk listens on the machine itself, but any web page open in the teacher's browser can send requests
//! there too. Two checks keep strangers out: the `Host` must be a name that only this machine has (a
//! stranger's name made to point here is refused), and what changes hands by POST must come from the desk's own page.

use std::net::IpAddr;

use axum::extract::{Request, State};
use axum::http::header::{self, HeaderName, HeaderValue};
use axum::http::{HeaderMap, Method, StatusCode};
use axum::middleware::Next;
use axum::response::Response;

use crate::pages;
use crate::state;

/// The page may use what the desk itself serves and nothing else; nothing inside a page runs or styles.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; \
                      connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Headers on every answer.
const HEADERS: [(HeaderName, &str); 6] = [
    (header::CONTENT_SECURITY_POLICY, POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "same-origin"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// Lets a request pass, or answers it with the reason why not; puts the headers on.
pub(crate) async fn guard(State(desk): State<state::State>, request: Request, next: Next) -> Response {
    let mut response = match check(&desk, request.method(), request.headers()) {
        Ok(()) => next.run(request).await,
        Err(why) => pages::notice(StatusCode::FORBIDDEN, "Not from the desk", why),
    };
    for (name, value) in HEADERS {
        response.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    response.headers_mut().entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    response
}

fn check(desk: &state::State, method: &Method, headers: &HeaderMap) -> Result<(), &'static str> {
    let text = |name| headers.get(name).map(|value: &HeaderValue| value.to_str().unwrap_or(""));
    let host = text(header::HOST).unwrap_or_default();
    if !is_own(host, desk) {
        return Err("The desk answers only to this machine's own address.");
    }
    if matches!(*method, Method::GET | Method::HEAD) {
        return Ok(());
    }
    match text(header::ORIGIN) {
        Some(origin) if origin.strip_prefix("http://").is_some_and(|rest| is_own(rest, desk)) => Ok(()),
        Some(_) => Err("This was sent by another page, not by the desk."),
        // Browsers that send no Origin say where a request comes from in this header; programs send neither.
        None => match text(HeaderName::from_static("sec-fetch-site")) {
            None | Some("same-origin" | "none") => Ok(()),
            Some(_) => Err("This was sent by another page, not by the desk."),
        },
    }
}

/// Is `host:port` this desk? Names are `localhost` and loopback addresses; a desk that was told to listen
/// beyond the machine also answers to addresses in figures, which no stranger can claim.
fn is_own(host: &str, desk: &state::State) -> bool {
    let (name, port) = match host.rsplit_once(':') {
        Some((name, port)) if !port.ends_with(']') => (name, port.parse::<u16>().ok()),
        _ => (host, Some(80)),
    };
    if port != Some(desk.address.port()) {
        return false;
    }
    let figures = name.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')).unwrap_or(name);
    name.eq_ignore_ascii_case("localhost")
        || figures
            .parse::<IpAddr>()
            .is_ok_and(|address| address.is_loopback() || !desk.address.ip().is_loopback())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shelf::Shelf;

    fn desk(address: &str) -> state::State {
        state::State::new(Shelf::default(), address.parse().unwrap())
    }

    #[test]
    fn only_the_machines_own_names_are_answered() {
        let desk = desk("127.0.0.1:8600");
        for own in ["localhost:8600", "127.0.0.1:8600", "[::1]:8600", "LOCALHOST:8600"] {
            assert!(is_own(own, &desk), "{own}");
        }
        for other in [
            "",
            "localhost",
            "localhost:80",
            "127.0.0.1:8601",
            "marram.example:8600",
            "192.0.2.7:8600",
            "[::1]",
            "::1:8600x",
        ] {
            assert!(!is_own(other, &desk), "{other}");
        }
    }

    #[test]
    fn beyond_the_machine_figures_are_answered_but_no_names() {
        let desk = desk("0.0.0.0:8600");
        assert!(is_own("192.0.2.7:8600", &desk));
        assert!(!is_own("marram.example:8600", &desk));
    }

    #[test]
    fn a_post_must_come_from_the_desk() {
        let desk = desk("127.0.0.1:8600");
        let post = |pairs: &[(&'static str, &'static str)]| {
            let mut headers = HeaderMap::new();
            headers.insert(header::HOST, HeaderValue::from_static("127.0.0.1:8600"));
            for (name, value) in pairs {
                headers.insert(*name, HeaderValue::from_static(value));
            }
            check(&desk, &Method::POST, &headers).is_ok()
        };
        assert!(post(&[]));
        assert!(post(&[("origin", "http://127.0.0.1:8600")]));
        assert!(post(&[("sec-fetch-site", "same-origin")]));
        assert!(!post(&[("origin", "http://marram.example")]));
        assert!(!post(&[("origin", "null")]));
        assert!(!post(&[("origin", "https://127.0.0.1:8600")]));
        assert!(!post(&[("sec-fetch-site", "cross-site")]));
    }
}
