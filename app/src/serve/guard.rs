//! Lets only this computer's own page ask: the host must be the loopback address and port, the origin the same.

use axum::extract::{Request, State};
use axum::http::header::{HOST, HeaderName, HeaderValue, ORIGIN};
use axum::http::{HeaderMap, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// What every answer says beside itself: nothing comes from elsewhere, nothing is kept by the browser unasked.
const SAID: [(&str, &str); 4] = [
    (
        "content-security-policy",
        "default-src 'self'; img-src 'self' data: blob:; style-src 'self' 'unsafe-inline'; connect-src 'self' blob: data:; \
         frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
    ),
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "no-referrer"),
    ("cross-origin-resource-policy", "same-origin"),
];

/// Refuses what another site or host asks.
pub async fn guard(State(port): State<u16>, request: Request, next: Next) -> Response {
    let mut response = match refusal(request.headers(), port) {
        Some(words) => (StatusCode::FORBIDDEN, words).into_response(),
        None => next.run(request).await,
    };
    for (name, value) in SAID {
        response.headers_mut().insert(HeaderName::from_static(name), HeaderValue::from_static(value));
    }
    response
}

/// Why a request is refused; none when it may be answered.
fn refusal(headers: &HeaderMap, port: u16) -> Option<String> {
    let said = |name: &HeaderName| headers.get(name).map(|value| value.to_str().unwrap_or("").to_ascii_lowercase());
    let hosts = [format!("127.0.0.1:{port}"), format!("localhost:{port}")];
    let host = said(&HOST).unwrap_or_default();
    if !hosts.contains(&host) {
        return Some(format!("This program answers only to {} and {}.", hosts[0], hosts[1]));
    }
    let origin = said(&ORIGIN)?;
    let own = origin.split_once(':').is_some_and(|(scheme, rest)| scheme == "http" && rest == format!("//{host}"));
    (!own).then(|| "Another site asked; this program answers only its own page.".to_owned())
}
