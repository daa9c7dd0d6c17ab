//! The frame around a drawn page: its head, the page itself, its state, its script.

use std::{cell::RefCell, fmt::Write, rc::Rc};

use axum::response::Html;
use dioxus::prelude::{Element, VirtualDom};
use dioxus_ssr::Renderer;
use serde::Serialize;

use crate::error::Refusal;

thread_local! {
    /// A renderer keeps the templates that it has seen; one for each thread needs no lock.
    static RENDERER: RefCell<Renderer> = RefCell::new({
        let mut renderer = Renderer::new();
        // Leaves the marks by which the browser finds each part again.
        renderer.pre_render = true;
        renderer
    });
}

/// Where a page's style comes from.
pub enum Style<'a> {
    /// Text inside the page, whose hash stands in the content security policy, for the first screen; and an address for
    /// what lies below, which does not hold up what lies above.
    Inline { first: &'a str, below: &'a str },
    /// An address.
    File(&'a str),
}

/// What a page has around it.
pub struct Document<'a> {
    /// BCP 47.
    pub language: String,
    pub title: String,
    pub icon: &'a str,
    pub style: Style<'a>,
    pub script: Option<&'a str>,
    /// Where the code for photos is, which the script fetches when there are any.
    pub photos: Option<&'a str>,
    /// Whether the script takes the page over, for which it needs the page's state.
    pub alive: bool,
}

impl Document<'_> {
    /// Draws `app` over `state`.
    pub fn draw<State>(&self, app: fn() -> Element, state: State) -> Result<Html<String>, Refusal>
    where
        State: Serialize + 'static,
    {
        self.write(app, state).map(Html).map_err(|error| {
            tracing::error!(%error, "a page could not be drawn");
            Refusal::Broken
        })
    }

    fn write<State>(&self, app: fn() -> Element, state: State) -> Result<String, DrawError>
    where
        State: Serialize + 'static,
    {
        let block = if self.alive {
            Some(data_block(&state)?)
        } else {
            None
        };
        let mut page = VirtualDom::new(app).with_root_context(Rc::new(state));
        page.rebuild_in_place();
        let mut html = String::with_capacity(32 * 1024);
        self.begin(&mut html)?;
        // Nothing may stand in #main before the page: the browser counts its nodes.
        html.push_str("<div id=\"main\">");
        RENDERER.with_borrow_mut(|renderer| renderer.render_to(&mut html, &page))?;
        html.push_str("</div>");
        self.end(&mut html, block.as_deref())?;
        Ok(html)
    }

    /// Puts the page around what was drawn already. It is never brought to life.
    pub fn around(&self, inside: &str) -> Result<Html<String>, Refusal> {
        let mut html = String::with_capacity(inside.len() + 1024);
        let written = self
            .begin(&mut html)
            .and_then(|()| html.write_str(inside))
            .and_then(|()| self.end(&mut html, None));
        written.map(|()| Html(html)).map_err(|error| {
            tracing::error!(%error, "a page could not be drawn");
            Refusal::Broken
        })
    }

    /// Everything up to what is drawn.
    fn begin(&self, html: &mut String) -> std::fmt::Result {
        write!(
            html,
            "<!doctype html><html lang=\"{}\"><head><meta charset=\"utf-8\">\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
             <meta name=\"color-scheme\" content=\"light dark\"><title>{}</title>\
             <link rel=\"icon\" href=\"{}\">",
            escaped(&self.language),
            escaped(&self.title),
            escaped(self.icon),
        )?;
        match self.style {
            Style::Inline { first, .. } => write!(html, "<style>{first}</style>")?,
            Style::File(address) => write!(
                html,
                "<link rel=\"stylesheet\" href=\"{}\">",
                escaped(address)
            )?,
        }
        if let (Some(script), true) = (self.script, self.alive) {
            write!(
                html,
                "<link rel=\"modulepreload\" href=\"{}\">",
                escaped(script)
            )?;
        }
        html.write_str("</head><body>")
    }

    /// Everything after it.
    fn end(&self, html: &mut String, block: Option<&str>) -> std::fmt::Result {
        if let Style::Inline { below, .. } = self.style {
            write!(
                html,
                "<link rel=\"stylesheet\" href=\"{}\">",
                escaped(below)
            )?;
        }
        if let Some(block) = block {
            write!(
                html,
                "<script type=\"application/json\" id=\"state\">{block}</script>"
            )?;
        }
        if let Some(script) = self.script {
            write!(html, "<script type=\"module\" src=\"{}\"", escaped(script))?;
            if let Some(photos) = self.photos {
                write!(html, " data-photos=\"{}\"", escaped(photos))?;
            }
            html.write_str("></script>")?;
        }
        html.write_str("</body></html>")
    }
}

#[derive(Debug, thiserror::Error)]
enum DrawError {
    #[error("its state: {0}")]
    State(#[from] serde_json::Error),
    #[error("its HTML: {0}")]
    Html(#[from] std::fmt::Error),
}

/// JSON that cannot end the script element it stands in.
fn data_block<T: Serialize>(state: &T) -> Result<String, serde_json::Error> {
    Ok(serde_json::to_string(state)?.replace('<', "\\u003c"))
}

/// Text for an element or a quoted attribute.
pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_cannot_end_the_data_block() {
        let block = data_block(&"</script><script>alert(1)</script>").unwrap();
        assert!(!block.contains('<'));
        assert_eq!(
            serde_json::from_str::<String>(&block).unwrap(),
            "</script><script>alert(1)</script>"
        );
    }

    #[test]
    fn a_title_is_text() {
        assert_eq!(escaped("<b>\"&"), "&lt;b&gt;&quot;&amp;");
    }
}
