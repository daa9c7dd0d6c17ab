//! How the page looks: on which screen, in which colour scheme, and as a picture.

use anyhow::Context;
use base64::Engine as _;
use image::RgbaImage;
use serde_json::{Value, json};

use super::{Browser, Engine, Outcome, ScreenSize};

impl Browser {
    pub async fn set_screen(&self, screen: ScreenSize) -> Outcome {
        let ScreenSize { width, height } = screen;
        if self.engine == Engine::WebKit {
            self.driver.set_window_rect(0, 0, width, height).await?;
            return Ok(());
        }
        let mobile = width < 600;
        self.cdp(
            "Emulation.setDeviceMetricsOverride",
            json!({"width": width, "height": height, "deviceScaleFactor": 1, "mobile": mobile}),
        )
        .await?;
        Ok(())
    }

    /// `light` or `dark`, as the owner has set it; and nothing that moves.
    pub async fn set_scheme(&self, scheme: &str) -> Outcome {
        let features = json!([
            {"name": "prefers-color-scheme", "value": scheme},
            {"name": "prefers-reduced-motion", "value": "reduce"},
        ]);
        self.cdp(
            "Emulation.setEmulatedMedia",
            json!({ "features": features }),
        )
        .await?;
        Ok(())
    }

    /// What is on the screen, as a PNG.
    pub async fn picture(&self) -> Outcome<Vec<u8>> {
        if self.engine == Engine::WebKit {
            return Ok(self.driver.screenshot_as_png().await?);
        }
        self.capture(json!({"format": "png", "optimizeForSpeed": true}))
            .await
    }

    /// The whole page, also what lies below the screen, as a PNG.
    pub async fn whole_picture(&self) -> Outcome<Vec<u8>> {
        let size = self.cdp("Page.getLayoutMetrics", json!({})).await?;
        let size = &size["cssContentSize"];
        let clip =
            json!({"x": 0, "y": 0, "width": size["width"], "height": size["height"], "scale": 1});
        self.capture(json!({"format": "png", "captureBeyondViewport": true, "optimizeForSpeed": true, "clip": clip}))
            .await
    }

    async fn capture(&self, parameters: Value) -> Outcome<Vec<u8>> {
        let answer = self.cdp("Page.captureScreenshot", parameters).await?;
        let encoded = answer["data"]
            .as_str()
            .context("the browser sent no picture")?;
        Ok(base64::engine::general_purpose::STANDARD.decode(encoded)?)
    }
}

/// A picture's pixels.
pub fn pixels(png: &[u8]) -> Outcome<RgbaImage> {
    Ok(image::load_from_memory(png)?.into_rgba8())
}
