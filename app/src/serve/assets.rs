//! The page itself, as the program carries it.

use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::http::{StatusCode, Uri};
use axum::response::{IntoResponse, Response};
use rust_embed::RustEmbed;

#[derive(RustEmbed)]
#[folder = "$OUT_DIR/ui"]
struct Page;

/// The page, or a file of it.
pub async fn asset(uri: Uri) -> Response {
    let path = uri.path().trim_start_matches('/');
    let path = if path.is_empty() { "index.html" } else { path };
    let Some(file) = Page::get(path) else {
        return (StatusCode::NOT_FOUND, format!("There is nothing called {path} here.")).into_response();
    };
    // The names of the built files say their content, so that they may be kept.
    let kept = if path.starts_with("assets/") { "max-age=31536000, immutable" } else { "no-cache" };
    ([(CONTENT_TYPE, kind(path)), (CACHE_CONTROL, kept)], file.data.into_owned()).into_response()
}

fn kind(path: &str) -> &'static str {
    match path.rsplit('.').next().unwrap_or("") {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/x-icon",
        "json" | "map" | "webmanifest" => "application/json",
        "woff2" => "font/woff2",
        "otf" => "font/otf",
        "ttf" => "font/ttf",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}
